// The pages of people, calls and the lead, by name. Apart from app.ts, which knows the rest.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import { callView } from '../../shared/views/callsView.ts'
import type { Served } from './hand.ts'
import type { Page } from './page.ts'
import { breakPage } from './pages/break.ts'
import { callPage } from './pages/call.ts'
import { callOverPage } from './pages/callOver.ts'
import { callsPage } from './pages/calls.ts'
import { askPersonPage, leadPage } from './pages/lead.ts'
import { mentorsPage } from './pages/mentors.ts'
import { moveBirdPage, moveNestPage } from './pages/moves.ts'
import { noticesPage } from './pages/notices.ts'
import { signOutPage } from './pages/signOut.ts'

export type RoomPage = Extract<
  Page,
  {
    type:
      | 'calls'
      | 'call'
      | 'callOver'
      | 'notices'
      | 'lead'
      | 'askPerson'
      | 'moveNest'
      | 'moveBird'
      | 'mentors'
      | 'break'
      | 'signOut'
  }
>

/** Null where what the page is about is there no more. */
export function roomPage(hand: Served, page: RoomPage): ComponentChild {
  switch (page.type) {
    case 'calls':
      return callsPage(hand)
    case 'call':
    case 'callOver': {
      const call = callView(hand.board, hand.names, { ...hand, request: page.request })
      return call && (page.type === 'call' ? callPage : callOverPage)(hand, call)
    }
    case 'notices':
      return noticesPage(hand)
    case 'lead':
      return leadPage(hand, page.nest)
    case 'askPerson':
      return askPersonPage(hand, page.nest)
    case 'moveNest':
      return moveNestPage(hand, page.nest)
    case 'moveBird':
      return moveBirdPage(hand, page)
    case 'mentors':
      return mentorsPage(hand, page.trainee)
    case 'break':
      return breakPage(hand)
    case 'signOut':
      return signOutPage(hand)
    default:
      return unreachable(page)
  }
}
