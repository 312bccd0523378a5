// Whether somebody can be reached, as far as the rules go: whoever no screen is heard of for a minute is
// not free, and when their claim runs out it is the lead who is asked. And the room's one setting of how
// a visit starts.

import { describe, expect, it } from 'vitest'
import { presenceEvents } from '../../shared/rules/presence.ts'
import { reachable, unreachable } from '../support/peopleBuilder.ts'
import { clock, offShift, opened, removed } from '../support/roomBuilder.ts'
import { ana, birdsF, lena, nestF, pia, room } from './smallRoom.ts'

const nowMs = clock('09:12')
const gone = room.and(unreachable(ana, '09:10'))

describe('a person', () => {
  it('is said to be out of reach once, and to be back once', () => {
    expect(presenceEvents(room.board, ana, false, nowMs)).toMatchObject([
      { type: 'PersonUnreachable', person: ana, atMs: nowMs },
    ])
    expect(presenceEvents(gone.board, ana, false, nowMs)).toEqual([])
    expect(presenceEvents(gone.board, ana, true, nowMs)).toMatchObject([
      { type: 'PersonReachable', person: ana, atMs: nowMs },
    ])
    expect(presenceEvents(room.board, ana, true, nowMs)).toEqual([])
  })

  it('is looked for only while on shift', () => {
    expect(presenceEvents(room.and(offShift(ana, '09:00')).board, ana, false, nowMs)).toEqual([])
    expect(presenceEvents(room.and(removed(ana)).board, ana, false, nowMs)).toEqual([])
  })

  it('who signs in can be reached', () => {
    const again = gone
      .and(offShift(ana, '09:20'))
      .when({ type: 'BeginShift' }, { by: ana, at: '09:30' })
    expect(again.room.board.people[ana]?.unreachableSinceMs).toBeNull()
  })
})

describe('a claim that runs out', () => {
  const ten = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:08', until: '09:20' } as const
  const opening = room.and(...opened(ten))
  const ownerAfter = (given: typeof room) =>
    given.whenClock('09:20').room.board.nests[nestF]?.doubts.map(({ no, owner }) => ({ no, owner }))

  it('is asked of whoever had it', () => {
    expect(ownerAfter(opening)).toEqual([{ no: 10, owner: ana }])
  })

  it('is put to the lead where its holder is out of reach', () => {
    expect(ownerAfter(opening.and(unreachable(ana, '09:15')))).toEqual([{ no: 10, owner: null }])
  })

  it('does not run out earlier for that', () => {
    const { board } = opening.and(unreachable(ana, '09:15')).whenClock('09:19:59').room
    expect(board.nests[nestF]?.hands).toMatchObject({ claimNo: 10 })
  })

  it('is asked of its holder who is back in time', () => {
    const back = opening.and(unreachable(ana, '09:15'), reachable(ana, '09:18'))
    expect(ownerAfter(back)).toEqual([{ no: 10, owner: ana }])
  })
})

describe('the tap that opens a nest', () => {
  const set = { type: 'SetRoom', usesStartTap: true } as const

  it('is off in a new room, and switched by the permit holder alone', () => {
    expect(room.board.room.usesStartTap).toBe(false)
    room.when(set, { by: lena, at: '09:10' }).refuses({ code: 'NotAllowed' })
    const on = room
      .when(set, { by: pia, at: '09:10' })
      .gives({ type: 'RoomSet', usesStartTap: true })
    expect(on.board.room.usesStartTap).toBe(true)
    const off = on.when({ ...set, usesStartTap: false }, { by: pia, at: '09:11' })
    expect(off.room.board.room.usesStartTap).toBe(false)
  })
})
