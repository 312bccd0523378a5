// The frame of every page: whether the room is live, who is served, what must be told first, then the
// page's own body, and at the thumb's end its one big press.

import type { ComponentChild } from 'preact'
import { nameOf } from '../../shared/views/names.ts'
import { html } from '../ui/html.ts'
import { formerHelper, handWords, houseWords, notLiveSince, whyNotLive } from '../ui/words.ts'
import type { Hand } from './hand.ts'

export type Parts = {
  readonly id: string
  readonly body: ComponentChild
  readonly dock?: ComponentChild
}

function liveness(hand: Hand): { isLost: boolean; words: string } {
  const { liveness: now } = hand.snapshot
  if (now.status === 'live') return { isLost: false, words: handWords.live }
  if (now.status === 'connecting') return { isLost: false, words: handWords.connecting }
  const since =
    now.sinceMs === null ? handWords.connecting : notLiveSince(hand.say.time(now.sinceMs))
  return { isLost: true, words: since }
}

function header(hand: Hand): ComponentChild {
  const { isLost, words } = liveness(hand)
  const { person } = hand.ui
  const name = person ? (nameOf(hand.board, hand.names, person) ?? formerHelper) : handWords.nobody
  const kind = isLost ? 'lost' : hand.snapshot.liveness.status
  return html`<header class=${`top ${kind}`}>
    <p>
      <span class="live" data-testid="live" data-live=${kind}>${words}</span>
      <time data-testid="clock">${hand.say.time(hand.nowMs)}</time>
    </p>
    <button
      type="button"
      class="who"
      data-testid="who"
      onClick=${() => hand.go({ type: 'people' })}
    >
      ${name}
    </button>
  </header>`
}

/** What stands above every page until it is dealt with or over. */
function messages(hand: Hand): ComponentChild {
  const { snapshot, ui } = hand
  const house = snapshot.house.map((condition) => houseWords(condition, hand.say))
  const failing = snapshot.isStoreFailing ? [handWords.storeFailing] : []
  const { liveness: now } = snapshot
  const lost = now.status === 'notLive' ? whyNotLive(now.why) : ''
  const alarms = [...failing, ...(lost === '' ? [] : [lost]), ...house]
  return html`
    ${alarms.map((words) => html`<p class="alarm" role="alert" data-testid="house">${words}</p>`)}
    ${ui.notice ? html`<p class=${`notice ${ui.notice.tone}`} role="status" data-testid="notice">${ui.notice.text}</p>` : null}
  `
}

/** A whole page. */
export function frame(hand: Hand, { id, body, dock }: Parts): ComponentChild {
  return html`<div class="screen" data-testid=${`page-${id}`}>
    ${header(hand)}
    <div class="body">${messages(hand)} ${body}</div>
    ${dock ? html`<div class="dock">${dock}</div>` : null}
  </div>`
}
