// The pages of a visit and of what is mended about it, by name. Apart from app.ts, which knows the rest.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import type { ClaimView } from '../../shared/views/claimView.ts'
import type { Served } from './hand.ts'
import type { Page } from './page.ts'
import { asidePage } from './pages/aside.ts'
import { birdPage } from './pages/bird.ts'
import { countPage } from './pages/count.ts'
import { fluidsPage } from './pages/fluids.ts'
import { fluidsAmountPage } from './pages/fluidsAmount.ts'
import { extraPage, mendPage } from './pages/mending.ts'
import { notAllPage } from './pages/notAll.ts'
import { otherNestPage } from './pages/otherNest.ts'
import { saidPage } from './pages/said.ts'
import { whichPage } from './pages/which.ts'
import { visitOf } from './visitOf.ts'

export type VisitPage = Extract<
  Page,
  {
    type:
      | 'bird'
      | 'notAll'
      | 'count'
      | 'aside'
      | 'said'
      | 'whichFed'
      | 'extra'
      | 'mend'
      | 'otherNest'
      | 'fluids'
      | 'fluidsAmount'
  }
>

type PageOf<Type extends VisitPage['type']> = Extract<VisitPage, { type: Type }>

/** One bird of the claim in hand, or of a feed entered afterwards. */
function oneBird(hand: Served, page: PageOf<'bird'>, claim: ClaimView | null): ComponentChild {
  const visit = visitOf(hand, claim, page)
  const row = visit?.rows.find(({ bird }) => bird === page.bird)
  if (!visit || !row) return null
  const { nest, label, key, looks } = visit
  return birdPage(hand, { nest, label, row, key, from: page.from, looks })
}

function notAll(hand: Served, page: PageOf<'notAll'>, claim: ClaimView | null): ComponentChild {
  const visit = visitOf(hand, claim, page)
  return visit && notAllPage(hand, { visit, after: page.after })
}

/** Null where what the page is about is there no more. */
export function visitPage(hand: Served, page: VisitPage, claim: ClaimView | null): ComponentChild {
  switch (page.type) {
    case 'bird':
      return oneBird(hand, page, claim)
    case 'notAll':
      return notAll(hand, page, claim)
    case 'count':
      return claim && countPage(hand, claim)
    case 'aside':
      return claim && asidePage(hand, claim)
    case 'said':
      return saidPage(hand, page)
    case 'whichFed':
      return whichPage(hand, page)
    case 'extra':
      return extraPage(hand, page.nest)
    case 'mend':
      return mendPage(hand, page)
    case 'otherNest':
      return otherNestPage(hand, page)
    case 'fluids':
      return fluidsPage(hand, page)
    case 'fluidsAmount':
      return fluidsAmountPage(hand, page)
    default:
      return unreachable(page)
  }
}
