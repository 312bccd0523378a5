// What stands above every page and takes none: a bird that is missing, help on its way, a call that
// waits. Still on purpose: nothing here moves, sounds or covers what the hands are at.

import type { ComponentChild } from 'preact'
import type { RequestId } from '../../../shared/base/values.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import { type CallShown, callsView } from '../../../shared/views/callsView.ts'
import { shortNests } from '../../../shared/views/shortNests.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { callWords } from '../callWords.ts'
import type { Served } from '../hand.ts'
import { callTitle } from './callTitle.ts'

/** More would push the page's own work off the screen; the rest is counted and listed elsewhere. */
const shownMax = 2
/** How long those who were asked too are told who has it. */
const toldTakenMs = minuteMs

type Line = { readonly id: string; readonly words: string; readonly press: ComponentChild }

const missing = (hand: Served): readonly Line[] =>
  shortNests(hand.board).map((one) => ({
    id: `short-${one.label}`,
    words: callWords.short(one.label, one.missing),
    press: second({
      id: `found-${one.label}`,
      text: callWords.found,
      onPress: () => void hand.actions.call.found(one.nest),
    }),
  }))

/** Only what the room itself has heard may be said to have reached anybody. */
const isHeard = (hand: Served, call: CallShown): boolean =>
  hand.snapshot.board?.requests[call.request] !== undefined

function calledWords(hand: Served, call: CallShown): string {
  const asked = call.asked.map(hand.say.person)
  const label = call.nest?.label ?? ''
  if (call.taken) {
    const name = call.taken.name ?? formerHelper
    return call.nest ? callWords.comingTo(name, label) : callWords.isComing(name)
  }
  if (call.kind === 'help') return callWords.called(asked)
  return call.kind === 'fluids' ? callWords.trained(label, asked) : callWords.decision(label, asked)
}

function lineWords(hand: Served, call: CallShown): string {
  if (!isHeard(hand, call)) return hand.snapshot.canAsk ? callWords.calling : callWords.noted
  if (call.standing === 'mine') return callWords.youHave(callTitle(call))
  return call.standing === 'putToMe' ? callTitle(call) : calledWords(hand, call)
}

function linePress(hand: Served, call: CallShown): ComponentChild {
  if (call.undoUntilMs === null || !isHeard(hand, call)) {
    return second({
      id: `open-${call.request}`,
      text: callWords.view,
      onPress: () => hand.go({ type: 'call', request: call.request }),
    })
  }
  const leftS = Math.ceil((call.undoUntilMs - hand.nowMs) / 1_000 / hand.snapshot.speed)
  return second({
    id: 'undo-help',
    text: callWords.undo,
    small: callWords.undoSmall(leftS),
    isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
    onPress: () => void hand.actions.call.undo(call.request),
  })
}

/** Not everybody's business: what others called and others have is on the list of calls. */
function concerns(hand: Served, call: CallShown): boolean {
  if (call.standing !== 'others') return true
  const couldCome = hand.board.people[hand.person]?.signOffs.includes('fluids') ?? false
  return couldCome && call.taken !== null && hand.nowMs - call.taken.atMs < toldTakenMs
}

const calling = (hand: Served, onPage: RequestId | null): readonly Line[] =>
  callsView(hand.board, hand.names, hand)
    .filter((call) => call.request !== onPage && concerns(hand, call))
    .map((call) => ({
      id: `call-${call.request}`,
      words: lineWords(hand, call),
      press: linePress(hand, call),
    }))

/** The lines; `onPage` is the call the page itself is about. Nothing when there is nothing. */
export function callLines(hand: Served, onPage: RequestId | null): ComponentChild {
  const lines = [...missing(hand), ...calling(hand, onPage)]
  if (lines.length === 0) return null
  const rest = lines.length - shownMax
  return html`<div class="lines" role="status">
    ${lines.slice(0, shownMax).map(
      ({ id, words, press }) => html`<div class="line" key=${id} data-testid=${id}>
        <p>${words}</p>
        ${press}
      </div>`,
    )}
    ${rest > 0 ? html`<p data-testid="more-lines">${callWords.moreLines(rest)}</p>` : null}
  </div>`
}
