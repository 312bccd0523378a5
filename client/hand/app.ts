// Which page is drawn: the name tiles while nobody is served, the claim in hand while there is one, else
// what is asked of this person, else the next nest; and any page somebody stepped aside to. A page whose
// reason has gone gives way to these. Nothing takes a page from full hands but a call to that very place.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import { callForPage } from '../../shared/views/callsView.ts'
import { type ClaimView, claimView } from '../../shared/views/claimView.ts'
import { offerView } from '../../shared/views/offerView.ts'
import type { Hand, Served } from './hand.ts'
import type { Page } from './page.ts'
import { boxPage, releasePage } from './pages/arrivals.ts'
import { callPage } from './pages/call.ts'
import { feedingPage } from './pages/feeding.ts'
import { holdPage, liftPage } from './pages/holding.ts'
import { listPage } from './pages/list.ts'
import { morePage } from './pages/more.ts'
import { nestPage } from './pages/nest.ts'
import { nextPage } from './pages/next.ts'
import { offerPage } from './pages/offer.ts'
import { peoplePage } from './pages/people.ts'
import { pinPage } from './pages/pin.ts'
import { placePage } from './pages/place.ts'
import { waitingPage } from './pages/waiting.ts'
import { roomPage } from './roomPages.ts'
import { visitPage } from './visitPages.ts'

function homePage(hand: Served, claim: ClaimView | null): ComponentChild {
  const call = callForPage(hand.board, hand.names, hand)
  if (call) return callPage(hand, call)
  if (claim) return feedingPage(hand, claim)
  const isLost = hand.snapshot.liveness.status === 'notLive'
  const offer = isLost ? null : offerView(hand.board, hand.names, hand)
  return offer ? offerPage(hand, offer) : nextPage(hand)
}

/** Pages on which nothing is being entered: there a call put to free hands comes first. */
const mereLooking: readonly Page['type'][] = ['list', 'nest', 'more', 'calls', 'notices', 'waiting']

function isTakenByCall(hand: Served, page: Page, claim: ClaimView | null): boolean {
  if (claim || !mereLooking.includes(page.type)) return false
  return callForPage(hand.board, hand.names, hand)?.standing === 'putToMe'
}

/** Null where what the page is about is there no more. */
function asked(hand: Served, page: Page, claim: ClaimView | null): ComponentChild {
  switch (page.type) {
    case 'home':
      return homePage(hand, claim)
    case 'people':
      return peoplePage(hand)
    case 'pin':
      return pinPage(hand, page)
    case 'list':
      return listPage(hand)
    case 'nest':
      return nestPage(hand, page.nest)
    case 'hold':
      return holdPage(hand, page)
    case 'lift':
      return liftPage(hand, page)
    case 'release':
      return releasePage(hand, page.nest)
    case 'box':
      return boxPage(hand)
    case 'place':
      return placePage(hand)
    case 'more':
      return morePage(hand)
    case 'waiting':
      return waitingPage(hand)
    case 'bird':
    case 'notAll':
    case 'count':
    case 'aside':
    case 'said':
    case 'whichFed':
    case 'extra':
    case 'mend':
    case 'otherNest':
    case 'fluids':
    case 'fluidsAmount':
      return visitPage(hand, page, claim)
    case 'calls':
    case 'call':
    case 'callOver':
    case 'notices':
    case 'lead':
    case 'askPerson':
    case 'moveNest':
    case 'moveBird':
    case 'mentors':
    case 'break':
    case 'signOut':
      return roomPage(hand, page)
    default:
      return unreachable(page)
  }
}

/** The page to draw now. */
export function app(hand: Hand): ComponentChild {
  const { person, page } = hand.ui
  if (person === null || !hand.board.people[person]) {
    return page.type === 'pin' ? pinPage(hand, page) : peoplePage(hand)
  }
  const served: Served = { ...hand, person }
  const claim = claimView(hand.board, hand.names, served)
  if (isTakenByCall(served, page, claim)) return homePage(served, claim)
  return asked(served, page, claim) ?? homePage(served, claim)
}
