import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import { shiftTally } from '../../shared/views/shiftTally.ts'
import { signInView } from '../../shared/views/signInView.ts'
import { type Clock, clock, round } from '../support/roomBuilder.ts'
import { ana, ben, birdsOfF, calmTeam, e, f, kwame, names, priya, tess } from './teamRoom.ts'

const visit = (no: number, at: Clock, outcome: Outcome = 'ate') =>
  round({ nest: f, no, by: ben, birds: birdsOfF, at, outcome })

describe('the count of a shift', () => {
  it('is of this person’s visits, the feeds in them and what refused', () => {
    const { board } = calmTeam.and(visit(4, '09:35'), visit(5, '10:05', 'refused'))
    expect(shiftTally(board, ben)).toEqual({
      ...{ sinceMs: clock('07:00'), visits: 2, fed: 4, refused: 4, calls: 0 },
    })
    expect(shiftTally(board, ana)).toMatchObject({ visits: 3, fed: 7 })
    expect(shiftTally(board, kwame)).toMatchObject({ visits: 0, fed: 0 })
  })

  it('leaves out what was taken back', () => {
    const { board } = calmTeam
      .and(visit(4, '09:35'))
      .when({ type: 'TakeBackFeed', nest: f, claimNo: 4 }, { by: ben, at: '09:35:05' }).room
    expect(shiftTally(board, ben)).toMatchObject({ visits: 0, fed: 0 })
  })

  it('counts visits the board itself has long let go', () => {
    const many = Array.from({ length: 10 }, (_, at) => visit(4 + at, `10:${10 + at}` as Clock))
    expect(shiftTally(calmTeam.and(many).board, ben)).toMatchObject({ visits: 10, fed: 40 })
  })

  it('begins anew with each shift, and is none off shift', () => {
    const again = calmTeam
      .and(visit(4, '09:35'))
      .when({ type: 'EndShift' }, { by: ben, at: '10:00' }).room
    expect(shiftTally(again.board, ben)).toBeNull()
    const next = again.when({ type: 'BeginShift' }, { by: ben, at: '12:00' }).room
    expect(shiftTally(next.board, ben)).toMatchObject({ sinceMs: clock('12:00'), visits: 0 })
  })
})

describe('the tiles of a shared tablet', () => {
  const tile = (board: typeof calmTeam.board, person: PersonId) =>
    signInView(board, names, [ana, ben]).find((one) => one.person === person)

  it('say who has which nest in hand, who is asked and who is called away', () => {
    const room = calmTeam
      .when({ type: 'ClaimNest', nest: e }, { by: ana, at: '09:34' })
      .room.when({ type: 'OfferNest', nest: f, person: ben }, { by: kwame, at: '09:36' })
      .room.when({ type: 'CallHelp' }, { by: tess, at: '09:36' })
      .room.when({ type: 'TakeRequest', request: 'r1' as never }, { by: priya, at: '09:36' }).room
    expect(tile(room.board, ana)).toMatchObject({ holds: 'E', isSignedIn: true })
    expect(tile(room.board, ben)).toMatchObject({ holds: null, offered: 'F' })
    expect(tile(room.board, priya)).toMatchObject({ isCalled: true, isSignedIn: false })
  })
})
