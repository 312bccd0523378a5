// Somebody is called: what is the matter, where, which bird, what was seen, by whom; and whether this
// person comes. Taken by one. Nothing here says how much of anything to give.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../../shared/base/control.ts'
import { fluids, whoDecides } from '../../../shared/care/cautions.ts'
import type { CallShown } from '../../../shared/views/callsView.ts'
import { html } from '../../ui/html.ts'
import { whyCalled } from '../../ui/openWords.ts'
import { pair, primary, second, three } from '../../ui/press.ts'
import { bandMark, nowMark } from '../../ui/shapes.ts'
import { bandWords, formerHelper, tallyWords } from '../../ui/words.ts'
import { callWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'
import { callTitle } from './callTitle.ts'

function head(hand: Served, call: CallShown): ComponentChild {
  const isOpen = call.standing === 'putToMe'
  return html`<section class=${isOpen ? 'fetch' : 'fetch taken'} data-testid="call">
    ${isOpen ? html`<p class="row">${nowMark()}<span>${callWords.now(hand.say.person(hand.person))}</span></p>` : null}
    <h1>${callTitle(call)}</h1>
  </section>`
}

function birdFact({ bird, nest }: CallShown): ComponentChild {
  if (bird) {
    const mass = bird.massMg === null ? null : callWords.grams(bird.massMg)
    const words = [bandWords(bird), bird.species, mass].filter((part) => part !== null)
    return html`${bandMark(bird.band)} <span>${words.join(', ')}</span>`
  }
  return nest ? html`<span>${callWords.oneOf(nest.birds)}</span>` : null
}

function feedsFact(hand: Served, { feeds }: CallShown): ComponentChild {
  if (feeds.length === 0) return callWords.noFeeds
  return html`<ul>
    ${feeds.map(({ startedAtMs, tally }) => html`<li key=${startedAtMs}>${hand.say.time(startedAtMs)} ${tallyWords(tally)}</li>`)}
  </ul>`
}

const fact = (name: string, what: ComponentChild): ComponentChild =>
  what === null ? null : html`<div><dt>${name}</dt><dd>${what}</dd></div>`

function facts(hand: Served, call: CallShown): ComponentChild {
  const { say } = hand
  const where = call.nest
    ? callWords.whereNest(call.nest.label, call.nest.incubatorLabel)
    : callWords.whereAsk
  const by = callWords.byAt(call.byName ?? formerHelper, say.time(call.raisedAtMs))
  const has =
    call.taken && callWords.byAt(call.taken.name ?? formerHelper, say.time(call.taken.atMs))
  const isOfBirds = call.kind !== 'help'
  return html`<dl class="facts-list">
    ${fact(callWords.where, where)} ${isOfBirds ? fact(callWords.bird, birdFact(call)) : null}
    ${isOfBirds ? fact(callWords.seen, whyCalled[call.why]) : null}
    ${call.note === null ? null : fact(callWords.said, call.note)} ${fact(callWords.by, by)}
    ${has ? fact(callWords.has, has) : null}
    ${isOfBirds ? fact(callWords.lastFeeds, feedsFact(hand, call)) : null}
  </dl>`
}

const cautions = ({ kind }: CallShown): ComponentChild =>
  kind === 'help'
    ? null
    : html`<p class="caution strong">${fluids.text}</p>
        <p class="caution">${whoDecides.text}</p>`

function answerPresses(hand: Served, { request }: CallShown): ComponentChild {
  const { call } = hand.actions
  const isOff = hand.ui.isAsking || !hand.snapshot.canAsk
  return html`${primary({
    id: 'coming',
    text: hand.ui.isAsking ? handWords.asking : callWords.coming,
    small: callWords.comingSmall,
    isOff,
    onPress: () => void call.take(request),
  })}
  ${second({ id: 'cannot', text: callWords.cannot, isOff, onPress: () => void call.decline(request) })}`
}

/** Where the work is, and the way out; at a bird also what was given to it. */
function workPresses(hand: Served, call: CallShown): ComponentChild {
  const { request, nest, bird, kind } = call
  const passBack = second({
    id: 'pass-back',
    text: callWords.passBack,
    isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
    onPress: () => void hand.actions.call.decline(request),
  })
  if (!nest) return passBack
  const open = second({
    id: 'to-nest',
    text: callWords.toNest(nest.label),
    onPress: () => hand.go({ type: 'nest', nest: nest.nest }),
  })
  if (kind === 'help') return pair(open, passBack)
  const given = second({
    id: 'fluids',
    text: callWords.fluidsGiven,
    onPress: () => hand.go({ type: 'fluids', nest: nest.nest, bird: bird?.bird ?? null }),
  })
  return three(given, open, passBack)
}

function takenPresses(hand: Served, call: CallShown): ComponentChild {
  return html`${primary({
    id: 'dealt-with',
    text: callWords.resolve,
    small: callWords.resolveSmall,
    onPress: () => hand.go({ type: 'callOver', request: call.request }),
  })}
  ${workPresses(hand, call)}`
}

function otherPresses(hand: Served, call: CallShown): ComponentChild {
  const back = second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) })
  if (!call.canResolve) return back
  return pair(
    second({
      id: 'call-over',
      text: callWords.over,
      onPress: () => hand.go({ type: 'callOver', request: call.request }),
    }),
    back,
  )
}

function presses(hand: Served, call: CallShown): ComponentChild {
  switch (call.standing) {
    case 'putToMe':
      return answerPresses(hand, call)
    case 'mine':
      return takenPresses(hand, call)
    case 'ofMine':
    case 'others':
      return otherPresses(hand, call)
    default:
      return unreachable(call.standing)
  }
}

export function callPage(hand: Served, call: CallShown): ComponentChild {
  const isLost = hand.snapshot.liveness.status === 'notLive'
  return frame(hand, {
    id: 'call',
    call: call.request,
    body: html`${head(hand, call)} ${facts(hand, call)}
      ${isLost ? html`<p class="why" data-testid="say-aloud">${callWords.lost}</p>` : null}
      ${cautions(call)}`,
    dock: presses(hand, call),
  })
}
