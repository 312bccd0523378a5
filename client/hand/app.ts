// Which page is drawn: the name tiles while nobody is served, the claim in hand while there is one, else
// the next nest; and any page somebody stepped aside to. A page whose reason has gone gives way to these.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import type { BirdId } from '../../shared/base/values.ts'
import { type ClaimView, claimView } from '../../shared/views/claimView.ts'
import { nestView } from '../../shared/views/nestView.ts'
import type { Hand, Served } from './hand.ts'
import { home, type Page } from './page.ts'
import { boxPage, releasePage } from './pages/arrivals.ts'
import { asidePage } from './pages/aside.ts'
import { birdPage } from './pages/bird.ts'
import { countPage } from './pages/count.ts'
import { feedingPage } from './pages/feeding.ts'
import { holdPage, liftPage } from './pages/holding.ts'
import { listPage } from './pages/list.ts'
import { extraPage, takeBackPage } from './pages/mending.ts'
import { morePage } from './pages/more.ts'
import { nestPage } from './pages/nest.ts'
import { nextPage } from './pages/next.ts'
import { peoplePage } from './pages/people.ts'
import { pinPage } from './pages/pin.ts'
import { saidPage } from './pages/said.ts'
import { waitingPage } from './pages/waiting.ts'
import { whichPage } from './pages/which.ts'
import { claimKey } from './ui.ts'

type PageOf<Type extends Page['type']> = Extract<Page, { type: Type }>

/** A bird of the claim in hand, or of a feed entered afterwards. */
function oneBird(hand: Served, page: PageOf<'bird'>, claim: ClaimView | null): ComponentChild {
  const find = <Row extends { readonly bird: BirdId }>(rows: readonly Row[]) =>
    rows.find((row) => row.bird === page.bird)
  if (claim && page.draft === claimKey(claim.claimNo)) {
    const row = find(claim.birds)
    const { nest, label } = claim
    return row
      ? birdPage(hand, { nest, label, row, key: page.draft, from: home, looks: true })
      : null
  }
  const { person, nowMs } = hand
  const view = nestView(hand.board, hand.names, { nest: page.nest, person, nowMs })
  const row = view ? find(view.birds) : null
  if (!view || !row) return null
  const from = { type: 'said', nest: page.nest } as const
  const { label } = view.summary
  return birdPage(hand, { nest: page.nest, label, row, key: page.draft, from, looks: false })
}

function homePage(hand: Served, claim: ClaimView | null): ComponentChild {
  return claim ? feedingPage(hand, claim) : nextPage(hand)
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
    case 'bird':
      return oneBird(hand, page, claim)
    case 'count':
      return claim && countPage(hand, claim)
    case 'aside':
      return claim && asidePage(hand, claim)
    case 'said':
      return saidPage(hand, page.nest)
    case 'whichFed':
      return whichPage(hand, page)
    case 'hold':
      return holdPage(hand, page)
    case 'lift':
      return liftPage(hand, page)
    case 'release':
      return releasePage(hand, page.nest)
    case 'extra':
      return extraPage(hand, page.nest)
    case 'box':
      return boxPage(hand)
    case 'takeBack':
      return takeBackPage(hand, page)
    case 'more':
      return morePage(hand)
    case 'waiting':
      return waitingPage(hand)
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
  return asked(served, page, claim) ?? homePage(served, claim)
}
