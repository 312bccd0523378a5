// "I already fed it, at …": a feed of before, at a time the person says. The time is chosen first; the
// birds are answered as at any visit.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import { type NestView, nestView } from '../../../shared/views/nestView.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { type Draft, isUnmarked, unanswered, withAllAte } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import type { Page } from '../page.ts'
import { draftOf, saidKey } from '../ui.ts'
import { handWords } from '../words.ts'
import { birdRows } from './birdRows.ts'
import { unmarkedBrood } from './unmarkedBrood.ts'

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

function answers(hand: Served, of: { nest: NestId; from: Page }, view: NestView): ComponentChild {
  const { nest } = of
  const key = saidKey(nest)
  const here = { type: 'said', ...of } as const
  if (isUnmarked(view.birds)) {
    return unmarkedBrood(hand, { nest, rows: view.birds, key, after: here })
  }
  return birdRows(view.birds, draftOf(hand.ui, key), ({ bird }) =>
    hand.go({ type: 'bird', nest, bird, draft: key, from: here }),
  )
}

function savePress(hand: Served, nest: NestId, view: NestView): ComponentChild {
  const key = saidKey(nest)
  const draft = draftOf(hand.ui, key)
  const isOff = draft.saidAtMs === null
  if (draft.answers.length === 0) {
    return primary({
      id: 'all-ate',
      text: handWords.allAte(unanswered(draft, view.birds).length),
      isOff,
      onPress: () => hand.setDraft(key, withAllAte(draft, view.birds)),
    })
  }
  return primary({
    id: 'save-said',
    text: handWords.saveFeed,
    isOff,
    onPress: () => void hand.actions.round.saidFeed(nest, draft),
  })
}

export function saidPage(
  hand: Served,
  { nest, from }: { readonly nest: NestId; readonly from: Page },
): ComponentChild {
  const view = nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })
  if (!view) return null
  const key = saidKey(nest)
  const draft = draftOf(hand.ui, key)
  return frame(hand, {
    id: 'said',
    body: html`
      <h1>${handWords.alreadyFedTitle(view.summary.label)}</h1>
      ${timeChoices(hand, key, draft)}
      ${draft.saidAtMs === null ? null : answers(hand, { nest, from }, view)}
    `,
    dock: html`
      ${savePress(hand, nest, view)}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go(from) })}
    `,
  })
}
