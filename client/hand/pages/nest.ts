// A nest's own page: how this person can have it or why not, its birds, what was recorded lately, and
// what else may be done to it.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../../shared/base/control.ts'
import type { NestId } from '../../../shared/base/values.ts'
import { type NestBird, type NestView, nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { pair, primary, second } from '../../ui/press.ts'
import { notReadyWords, refusalWords } from '../../ui/refusalWords.ts'
import { bandMark } from '../../ui/shapes.ts'
import { bandWords, birdsWords, capital, formerHelper } from '../../ui/words.ts'
import { isUnmarked } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'
import { alreadyFedPress } from './alreadyFed.ts'
import { leadPress } from './lead.ts'
import { roundLines } from './nestRounds.ts'
import { nestStateWords } from './nestWords.ts'
import { warningLines } from './warnings.ts'

function claimPress(hand: Served, { summary, way }: NestView): ComponentChild {
  const { nest, label } = summary
  const { round } = hand.actions
  const isOff = hand.ui.isAsking
  const { state } = summary
  if (state.type === 'claimed' && state.person === hand.person) {
    return primary({ id: 'go-on', text: handWords.goOn, onPress: () => hand.go(home) })
  }
  if (!hand.snapshot.canAsk) return null
  switch (way.type) {
    case 'claim':
      return primary({
        id: 'claim',
        text: isOff ? handWords.asking : handWords.claim(label),
        small: handWords.claimSmall,
        isOff,
        onPress: () => void round.claim(nest),
      })
    case 'lookFirst':
      return primary({
        id: 'look-first',
        text: isOff ? handWords.asking : handWords.lookFirst,
        small: handWords.lookFirstSmall(label),
        isOff,
        onPress: () => void round.claim(nest, { seenDoubts: [...way.doubts] }),
      })
    case 'sureEarly':
      return second({
        id: 'sure-early',
        text: handWords.sureEarly,
        small: handWords.sureEarlySmall(hand.say.time(way.readyAtMs)),
        isOff,
        onPress: () => void round.claim(nest, { sureEarly: true, seenDoubts: [...way.doubts] }),
      })
    case 'extra':
      return second({
        id: 'extra',
        text: handWords.extra,
        small: handWords.sureEarlySmall(hand.say.time(way.readyAtMs)),
        onPress: () => hand.go({ type: 'extra', nest }),
      })
    case 'refused':
      return null
    default:
      return unreachable(way)
  }
}

/** What it is, and why it cannot be had, each said once: the longer sentence stands for both. */
function stateAndReason(hand: Served, view: NestView): ComponentChild {
  const { way, summary, hold } = view
  const refused = way.type === 'refused' ? way.why : null
  const isShut = hold !== null || summary.state.type === 'settling'
  const showsState = !isShut && refused?.code !== 'NestTaken'
  const showsReason = refused && !(isShut && refused.code === 'NothingReady')
  return html`
    ${showsState ? html`<p class="why" data-testid="nest-state">${capital(nestStateWords(hand, summary))}</p>` : null}
    ${standing(hand, view)}
    ${showsReason ? html`<p class="why" data-testid="refusal">${refusalWords(refused, hand.say)}</p>` : null}
  `
}

/** When it was fed, and what keeps it from being fed; a reason of time says both. */
function birdWords(hand: Served, row: NestBird): ComponentChild {
  if (row.whyNot?.type === 'tooSoon') return notReadyWords(row.whyNot, hand.say)
  const fed =
    row.lastFedAtMs === null
      ? handWords.neverFed
      : handWords.lastFed(hand.say.time(row.lastFedAtMs))
  const fluids = row.fluidsAtMs === null ? null : visitWords.fluidsAt(hand.say.time(row.fluidsAtMs))
  const why = row.whyNot ? notReadyWords(row.whyNot, hand.say) : null
  return html`${[fed, fluids].filter(Boolean).join(', ')}${why ? html`<small>${why}</small>` : null}`
}

/** Birds without bands of which the same is true are one line: nobody could tell them apart. */
function birds(hand: Served, { birds: rows, summary }: NestView): ComponentChild {
  const [first] = rows
  const isAlike = first !== undefined && isUnmarked(rows) && rows.every((row) => isSame(row, first))
  const lift = ({ bird }: NestBird) =>
    second({
      id: `lift-${bird}`,
      text: handWords.lift,
      onPress: () => hand.go({ type: 'lift', nest: summary.nest, bird }),
    })
  return html`<ul class="rows plain">
    ${(isAlike ? [first] : rows).map(
      (row) => html`<li key=${row.bird}>
        ${bandMark(row.band)}
        <span><b>${isAlike ? birdsWords(rows.length) : bandWords(row)}</b>, ${birdWords(hand, row)}</span>
        ${row.canLift ? lift(row) : null}
      </li>`,
    )}
  </ul>`
}

const isSame = (a: NestBird, b: NestBird): boolean =>
  a.hold === b.hold &&
  a.lastFedAtMs === b.lastFedAtMs &&
  a.fluidsAtMs === b.fluidsAtMs &&
  a.dueAtMs === b.dueAtMs &&
  a.whyNot?.type === b.whyNot?.type

function standing(hand: Served, view: NestView): ComponentChild {
  const { hold, summary, warnings } = view
  return html`
    ${hold ? html`<p class="why">${handWords.holdLine(hold.reason, view.holdByName ?? formerHelper, hand.say.time(hold.lookAgainAtMs))}</p>` : null}
    ${summary.state.type === 'settling' ? html`<p class="why">${handWords.settlingLine(hand.say.time(summary.state.lookDueAtMs))}</p>` : null}
    ${warningLines(hand, warnings)}
  `
}

function settlingPresses(hand: Served, view: NestView): ComponentChild {
  const birds = view.birds.filter((row) => row.isSettling).map((row) => row.bird)
  if (birds.length === 0) return null
  const { nest } = view.summary
  return html`
    ${pair(
      second({
        id: 'droppings',
        text: handWords.droppings,
        onPress: () => void hand.actions.brood.sawDroppings(nest, birds, 'seen'),
      }),
      second({
        id: 'no-droppings',
        text: handWords.noDroppings,
        onPress: () => void hand.actions.brood.sawDroppings(nest, birds, 'none'),
      }),
    )}
    ${view.can.release ? second({ id: 'release', text: handWords.release, onPress: () => hand.go({ type: 'release', nest }) }) : null}
  `
}

function presses(hand: Served, view: NestView): ComponentChild {
  const { nest } = view.summary
  const fed = alreadyFedPress(hand, nest, { type: 'nest', nest })
  const fluids = second({
    id: 'fluids',
    text: visitWords.fluids,
    onPress: () => hand.go({ type: 'fluids', nest, bird: null }),
  })
  const hold = view.can.lift
    ? second({
        id: 'lift',
        text: handWords.lift,
        onPress: () => hand.go({ type: 'lift', nest, bird: null }),
      })
    : second({
        id: 'hold',
        text: handWords.hold,
        onPress: () => hand.go({ type: 'hold', nest, what: null }),
      })
  return html`${pair(fed, hold)}
    ${view.can.fluids ? fluids : null} ${leadPress(hand, nest)}`
}

export function nestPage(hand: Served, nest: NestId): ComponentChild {
  const view = nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })
  if (!view) return null
  const { summary } = view
  return frame(hand, {
    id: 'nest',
    body: html`
      <h1 class="where"><b>${summary.label}</b> <span class="box">${summary.incubatorLabel}</span></h1>
      ${stateAndReason(hand, view)}
      ${hand.snapshot.liveness.status !== 'notLive' ? null : html`<p class="why" data-testid="say-aloud">${handWords.sayAloud}</p>`}
      ${settlingPresses(hand, view)} ${presses(hand, view)} ${birds(hand, view)} ${roundLines(hand, view)}
    `,
    dock: html`${claimPress(hand, view)}
    ${second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'list' }) })}`,
  })
}
