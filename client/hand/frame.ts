// The frame of every page: whether the room is live, help in one tap, who is served, what must be told
// first, then the page's own body, and at the thumb's end its one big press.

import type { ComponentChild } from 'preact'
import type { RequestId } from '../../shared/base/values.ts'
import { nameOf } from '../../shared/views/names.ts'
import { html } from '../ui/html.ts'
import { whyNotLive } from '../ui/refusalWords.ts'
import { startWords } from '../ui/startWords.ts'
import { formerHelper, houseWords, notLiveSince } from '../ui/words.ts'
import type { Hand } from './hand.ts'
import { callLines } from './pages/callLines.ts'
import { helpPress } from './pages/help.ts'
import { servedRow } from './pages/served.ts'
import { handWords } from './words.ts'

export type Parts = {
  readonly id: string
  readonly body: ComponentChild
  readonly dock?: ComponentChild
  /** The call this page is about, which then needs no line above it. */
  readonly call?: RequestId
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
    ${person ? helpPress({ ...hand, person }) : null}
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
function messages(hand: Hand, call: RequestId | null): ComponentChild {
  const { snapshot, ui } = hand
  const { person } = ui
  const house = snapshot.house.map((condition) => houseWords(condition, hand.say))
  const failing = snapshot.isStoreFailing ? [startWords.storeFailing] : []
  const { liveness: now } = snapshot
  const lost = now.status === 'notLive' ? whyNotLive(now.why) : ''
  const alarms = [...failing, ...(lost === '' ? [] : [lost]), ...house]
  return html`
    ${alarms.map((words) => html`<p class="alarm" role="alert" data-testid="house">${words}</p>`)}
    ${ui.notice ? html`<p class=${`notice ${ui.notice.tone}`} role="status" data-testid="notice">${ui.notice.text}</p>` : null}
    ${person ? callLines({ ...hand, person }, call) : null}
  `
}

/** A whole page. */
export function frame(hand: Hand, { id, body, dock, call }: Parts): ComponentChild {
  return html`<div class="screen" data-testid=${`page-${id}`}>
    ${header(hand)} ${servedRow(hand)}
    <div class="body">${messages(hand, call ?? null)} ${body}</div>
    ${dock ? html`<div class="dock">${dock}</div>` : null}
  </div>`
}
