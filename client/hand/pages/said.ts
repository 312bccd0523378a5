// "I already fed it, at …": a feed of before, at a time the person says. The time is chosen first; the
// birds are answered as at any visit.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { handWords } from '../../ui/words.ts'
import { type Draft, unanswered, withAllAte } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { draftOf, saidKey } from '../ui.ts'
import { birdRows } from './birdRows.ts'

const agoMinutes = [0, 5, 10, 15, 20, 30] as const
/** Nobody remembers a feed of before yesterday to the minute. */
const agoMaxMinutes = 24 * 60

function timeChoices(hand: Served, key: string, draft: Draft): ComponentChild {
  const said = draft.saidAtMs
  const ago = said === null ? null : wholeMinutes(hand.nowMs - said)
  const set = (minutes: number) =>
    hand.setDraft(key, {
      ...draft,
      saidAtMs: hand.nowMs - Math.min(agoMaxMinutes, Math.max(0, minutes)) * minuteMs,
    })
  return html`<div class="choices three">
      ${agoMinutes.map((minutes) =>
        choice({
          id: `ago-${minutes}`,
          text: minutes === 0 ? handWords.justNow : handWords.agoWords(minutes),
          isOn: ago === minutes,
          onPress: () => set(minutes),
        }),
      )}
    </div>
    ${
      said === null || ago === null
        ? null
        : html`<div class="amount">
            ${second({ id: 'earlier', text: '−', onPress: () => set(ago + 1) })}
            <output data-testid="said-at">${handWords.atTime(hand.say.time(said))}</output>
            ${second({ id: 'later', text: '+', isOff: ago === 0, onPress: () => set(ago - 1) })}
          </div>`
    }`
}

export function saidPage(hand: Served, nest: NestId): ComponentChild {
  const view = nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })
  if (!view) return null
  const key = saidKey(nest)
  const draft = draftOf(hand.ui, key)
  const left = unanswered(draft, view.birds)
  const isChosen = draft.saidAtMs !== null
  return frame(hand, {
    id: 'said',
    body: html`
      <h1>${handWords.alreadyFedTitle(view.summary.label)}</h1>
      ${timeChoices(hand, key, draft)}
      ${isChosen ? birdRows(view.birds, draft, (row) => hand.go({ type: 'bird', nest, bird: row.bird, draft: key })) : null}
    `,
    dock: html`
      ${
        draft.answers.length === 0
          ? primary({
              id: 'all-ate',
              text: handWords.allAte(left.length),
              isOff: !isChosen,
              onPress: () => hand.setDraft(key, withAllAte(draft, view.birds)),
            })
          : primary({
              id: 'save-said',
              text: handWords.saveFeed,
              isOff: !isChosen,
              onPress: () => void hand.actions.round.saidFeed(nest, draft, view.birds.length),
            })
      }
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'nest', nest }) })}
    `,
  })
}
