// What a lead may do to one nest beside holding it: ask somebody to take it, move it, move one of its
// birds. One tap from the nest's own page.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { hasRight } from '../../../shared/board/rights.ts'
import type { Rejection } from '../../../shared/rules/rejection.ts'
import { whyNotMoveNest } from '../../../shared/views/movesView.ts'
import { type Askable, whoToAsk } from '../../../shared/views/whoToAsk.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { refusalWords } from '../../ui/refusalWords.ts'
import { formerHelper } from '../../ui/words.ts'
import { leadWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

/** Nothing for anybody but a lead. */
export function leadPress(hand: Served, nest: NestId): ComponentChild {
  const actor = hand.board.people[hand.person]
  if (!actor || !hasRight(actor, 'lead')) return null
  return second({
    id: 'lead',
    text: leadWords.press,
    small: leadWords.pressSmall,
    onPress: () => hand.go({ type: 'lead', nest }),
  })
}

export const backToLead = (hand: Served, nest: NestId): ComponentChild =>
  second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'lead', nest }) })

export function leadPage(hand: Served, nest: NestId): ComponentChild {
  const label = hand.board.nests[nest]?.label
  if (label === undefined) return null
  const why = whyNotMoveNest(hand.board, nest, hand)
  return frame(hand, {
    id: 'lead',
    body: html`<h1>${leadWords.title(label)}</h1>
      <div class="rows">
        ${second({
          id: 'ask-person',
          text: leadWords.ask,
          small: leadWords.askSmall,
          onPress: () => hand.go({ type: 'askPerson', nest }),
        })}
        ${second({
          id: 'move-nest',
          text: leadWords.moveNest,
          small: why ? refusalWords(why, hand.say) : leadWords.moveNestSmall,
          isOff: why !== null,
          onPress: () => hand.go({ type: 'moveNest', nest }),
        })}
        ${second({
          id: 'move-bird',
          text: leadWords.moveBird,
          small: why ? refusalWords(why, hand.say) : leadWords.moveBirdSmall,
          isOff: why !== null,
          onPress: () => hand.go({ type: 'moveBird', nest, bird: null, to: null }),
        })}
      </div>`,
    dock: second({
      id: 'back',
      text: handWords.back,
      onPress: () => hand.go({ type: 'nest', nest }),
    }),
  })
}

/** Why somebody cannot be asked, said of them and not to them. */
function whyNotAsked({ say }: Served, why: Rejection): string {
  switch (why.code) {
    case 'FinishFirst':
      return leadWords.has(say.nest(why.nest))
    case 'OnBreak':
      return leadWords.isOnBreak
    case 'MentorAway':
      return leadWords.noMentor
    case 'NotFree':
      return leadWords.isBusy
    case 'AnswerFirst':
      return leadWords.mayHaveFed
    case 'NothingReady':
      return why.birds.some((bird) => bird.why.type === 'needsSignOff')
        ? leadWords.notSignedOff
        : refusalWords(why, say)
    default:
      return refusalWords(why, say)
  }
}

function person(hand: Served, nest: NestId, one: Askable): ComponentChild {
  const reason = one.why && whyNotAsked(hand, one.why)
  return second({
    id: `ask-${one.person}`,
    text: one.name ?? formerHelper,
    small: one.isAsked ? leadWords.isAsked : reason,
    isOff: one.isAsked || one.why !== null || hand.ui.isAsking || !hand.snapshot.canAsk,
    onPress: () => void hand.actions.lead.offer(nest, one.person),
  })
}

export function askPersonPage(hand: Served, nest: NestId): ComponentChild {
  const label = hand.board.nests[nest]?.label
  if (label === undefined) return null
  const people = whoToAsk(hand.board, hand.names, { ...hand, nest })
  const isNobody = people.every(({ why }) => why !== null)
  return frame(hand, {
    id: 'ask-person',
    body: html`<h1>${leadWords.askTitle(label)}</h1>
      ${isNobody ? html`<p class="why">${leadWords.askNobody}</p>` : null}
      <div class="rows two-wide">${people.map((one) => person(hand, nest, one))}</div>`,
    dock: backToLead(hand, nest),
  })
}
