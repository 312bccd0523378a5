// Two rare pages of a few presses each: mending a record after its ten seconds, by taking it back or by
// naming the nest really fed, and saying why a nest needs an extra feed.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { visitWords } from '../visitWords.ts'
import { extraReasons, handWords } from '../words.ts'

const viewOf = (hand: Served, nest: NestId) =>
  nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })

const backTo = (hand: Served, nest: NestId) =>
  second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'nest', nest }) })

export function mendPage(hand: Served, of: { nest: NestId; no: number }): ComponentChild {
  const view = viewOf(hand, of.nest)
  const round = view?.rounds.find(({ no, isTakenBack }) => no === of.no && !isTakenBack)
  if (!view || !round) return null
  const answer = (wasFed: 'yes' | 'no' | 'unknown', text: string) =>
    second({
      id: `was-fed-${wasFed}`,
      text,
      onPress: () => void hand.actions.round.takeBack(of.nest, of.no, wasFed),
    })
  return frame(hand, {
    id: 'mend',
    body: html`
      <h1>${visitWords.mendTitle(view.summary.label, hand.say.time(round.startedAtMs))}</h1>
      ${second({
        id: 'other-nest',
        text: visitWords.otherNest,
        small: visitWords.otherNestSmall(view.summary.label),
        onPress: () => hand.go({ ...of, type: 'otherNest', from: { ...of, type: 'mend' } }),
      })}
      <h2>${visitWords.takeBack}</h2>
      ${answer('yes', handWords.wasFedYes)} ${answer('no', handWords.wasFedNo)}
      ${answer('unknown', handWords.wasFedUnknown)}
    `,
    dock: backTo(hand, of.nest),
  })
}

export function extraPage(hand: Served, nest: NestId): ComponentChild {
  const view = viewOf(hand, nest)
  if (view?.way.type !== 'extra') return null
  const { birds, afterFeed, doubts } = view.way
  return frame(hand, {
    id: 'extra',
    body: html`
      <h1>${handWords.extraWhy(view.summary.label)}</h1>
      ${extraReasons.map((reason) =>
        second({
          id: `extra-${reason}`,
          text: reason,
          isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
          onPress: () =>
            void hand.actions.round.claim(nest, {
              extra: { birds: [...birds], reason, afterFeed },
              seenDoubts: [...doubts],
            }),
        }),
      )}
    `,
    dock: backTo(hand, nest),
  })
}
