// A brood to another incubator, a bird to another nest. Where one of two nests is in quarantine
// somebody says that they have thought of it, before anything moves.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import {
  type IncubatorPlace,
  incubatorPlaces,
  type NestPlace,
  nestPlaces,
} from '../../../shared/views/movesView.ts'
import { type NestView, nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { primary, second } from '../../ui/press.ts'
import { refusalWords } from '../../ui/refusalWords.ts'
import { bandWords } from '../../ui/words.ts'
import { leadWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { backToLead } from './lead.ts'

const isOff = (hand: Served): boolean => hand.ui.isAsking || !hand.snapshot.canAsk

export function moveNestPage(hand: Served, nest: NestId): ComponentChild {
  const label = hand.board.nests[nest]?.label
  if (label === undefined) return null
  const place = (one: IncubatorPlace) =>
    second({
      id: `to-incubator-${one.label}`,
      text: one.label,
      small: one.isHere ? leadWords.isHere : leadWords.nests(one.nests),
      isOff: one.isHere || isOff(hand),
      onPress: () => void hand.actions.lead.moveNest(nest, one.incubator),
    })
  return frame(hand, {
    id: 'move-nest',
    body: html`<h1>${leadWords.moveNestTitle(label)}</h1>
      <div class="choices three">${incubatorPlaces(hand.board, nest).map(place)}</div>`,
    dock: backToLead(hand, nest),
  })
}

function whichBird(hand: Served, view: NestView): ComponentChild {
  const { nest, label } = view.summary
  return html`<h1>${leadWords.whichBird(label)}</h1>
    <div class="choices">
      ${view.birds.map((row) =>
        second({
          id: `move-${row.bird}`,
          text: bandWords(row),
          small: row.species,
          onPress: () => hand.go({ type: 'moveBird', nest, bird: row.bird, to: null }),
        }),
      )}
    </div>`
}

type Moving = { readonly nest: NestId; readonly bird: BirdId; readonly words: string }

/** The nests it cannot go to, each reason once. */
function shutPlaces(hand: Served, places: readonly NestPlace[]): ComponentChild {
  const reasons = new Map<string, readonly string[]>()
  for (const { label, why } of places) {
    const reason = why && refusalWords(why, hand.say)
    if (reason) reasons.set(reason, [...(reasons.get(reason) ?? []), label])
  }
  return [...reasons].map(
    ([reason, labels]) =>
      html`<p key=${reason}>${leadWords.cannotTake(labels.join(', '))} ${reason}</p>`,
  )
}

function whichNest(hand: Served, { nest, bird, words }: Moving): ComponentChild {
  const places = nestPlaces(hand.board, bird, hand)
  const press = (place: NestPlace) =>
    second({
      id: `to-nest-${place.label}`,
      text: place.label,
      small: leadWords.inIncubator(place),
      isOff: isOff(hand),
      onPress: () => {
        if (place.needsDecision) hand.go({ type: 'moveBird', nest, bird, to: place.nest })
        else void hand.actions.lead.moveBird(bird, place.nest, 'same')
      },
    })
  return html`<h1>${leadWords.whichNest(words)}</h1>
    <div class="choices three">${places.filter(({ why }) => why === null).map(press)}</div>
    ${shutPlaces(hand, places)}`
}

/** Two quarantines differ: what that means is read before it is decided. */
function decidePage(hand: Served, moving: Moving, to: NestId): ComponentChild {
  const { nest, bird, words } = moving
  const target = hand.board.nests[to]
  const from = hand.board.nests[nest]
  if (!target || !from) return null
  return frame(hand, {
    id: 'move-decide',
    body: html`<h1>${leadWords.decideTitle(words, target.label)}</h1>
      <p class="why">
        ${target.isQuarantined ? leadWords.decideIn(target.label) : leadWords.decideOut(target.label, from.label)}
      </p>`,
    dock: html`${primary({
      id: 'decide',
      text: leadWords.decide,
      small: leadWords.decideSmall(target.label),
      isOff: isOff(hand),
      onPress: () => void hand.actions.lead.moveBird(bird, to, 'decided'),
    })}
    ${backToLead(hand, nest)}`,
  })
}

export function moveBirdPage(
  hand: Served,
  of: { readonly nest: NestId; readonly bird: BirdId | null; readonly to: NestId | null },
): ComponentChild {
  const view = nestView(hand.board, hand.names, { ...hand, nest: of.nest })
  if (!view) return null
  const row = view.birds.find(({ bird }) => bird === of.bird)
  const moving = row && { nest: of.nest, bird: row.bird, words: bandWords(row) }
  if (moving && of.to) return decidePage(hand, moving, of.to)
  return frame(hand, {
    id: 'move-bird',
    body: moving ? whichNest(hand, moving) : whichBird(hand, view),
    dock: backToLead(hand, of.nest),
  })
}
