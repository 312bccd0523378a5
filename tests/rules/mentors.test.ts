// A trainee works beside a mentor. Without one on shift they may claim nothing and are offered nothing;
// what they hold goes on when the mentor leaves, and the lead is told. The same when a sign-off ends.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Order } from '../support/given.ts'
import { mentoredBy, onBreak, signedOffFor } from '../support/peopleBuilder.ts'
import {
  claimed,
  offShift,
  onShift,
  opened,
  person,
  personOf,
  removed,
} from '../support/roomBuilder.ts'
import { ana, birdsE, birdsF, iris, lena, nestE, nestF, pia, room, tom } from './smallRoom.ts'

const claimF: Order = { type: 'ClaimNest', nest: nestF }
const ask = { by: tom, at: '09:10' } as const

/** Why Tom may not claim, and who his mentor is then. */
const away: readonly { why: string; past: readonly RoomEvent[]; mentor: PersonId | null }[] = [
  { why: 'has no mentor', past: [mentoredBy(tom, null)], mentor: null },
  { why: 'has one who is off shift', past: [offShift(lena, '09:05')], mentor: lena },
  { why: 'has one on a break', past: [onBreak(lena, '09:05')], mentor: lena },
  { why: 'has one who was removed', past: [removed(lena)], mentor: lena },
  { why: 'has one who is a mentor no more', past: [signedOffFor(lena)], mentor: lena },
]

describe('a trainee', () => {
  it.each(away)('who $why claims nothing', ({ past, mentor }) => {
    room
      .and(...past)
      .when(claimF, ask)
      .refuses({ code: 'MentorAway', mentor })
  })

  it('whose mentor is on shift claims like anybody else', () => {
    room.when(claimF, ask).includes({ type: 'NestClaimed', person: tom } as never)
  })

  it('is alone in needing a mentor', () => {
    const alone = room.and(offShift(lena, '09:05'))
    alone.when(claimF, { by: ana, at: '09:10' }).includes({ type: 'NestClaimed' } as never)
  })

  it('without a mentor goes on with what is in hand, and what they record is marked', () => {
    const held = room.and(
      opened({ nest: nestF, no: 10, by: tom, birds: birdsF, at: '09:08' }),
      offShift(lena, '09:09'),
    )
    const answers = birdsF.map((bird) => ({ bird, outcome: 'ate' }) as const)
    const answer: Order = { type: 'AnswerBirds', nest: nestF, claimNo: 10, answers }
    const [recorded] = held.when(answer, { by: tom, at: '09:14' }).events
    expect(recorded).toMatchObject({ type: 'RoundRecorded', marks: ['mentorAway'] })
  })
})

const holding = room.and(claimed({ nest: nestF, no: 10, by: tom, birds: birdsF, at: '09:08' }))
const told = { type: 'LeadTold', why: 'mentorGone', nest: nestF, person: tom } as const
const leaving: readonly { what: string; order: Order; by: PersonId }[] = [
  { what: 'goes home', order: { type: 'EndShift' }, by: lena },
  { what: 'takes a break', order: { type: 'BeginBreak' }, by: lena },
  { what: 'is removed', order: { type: 'RemovePerson', person: lena }, by: pia },
  {
    what: 'is a mentor no more',
    order: { type: 'SetSignOffs', person: lena, signOffs: ['gapeSyringe'] },
    by: pia,
  },
]
const says = (by: PersonId) => ({ by, at: '09:12' }) as const
/** What is told of people; late nests are told of without any. */
const toldOf = ({ notices }: Board) =>
  notices.filter(({ person }) => person).map(({ why, person }) => ({ why, person }))

describe('a mentor', () => {
  it.each(leaving)('who $what leaves a trainee’s claim alone, and the lead is told', (row) => {
    const turn = holding.when(row.order, says(row.by))
    turn.includes(told as never).leavesOut('ClaimEnded')
    expect(turn.room.board.nests[nestF]?.hands).toMatchObject({ person: tom })
  })

  it.each(leaving)('who $what while the trainee has nothing in hand is no news', (row) => {
    room.when(row.order, says(row.by)).leavesOut('LeadTold')
  })

  it('of two trainees with nests is told of twice, each under a number of its own', () => {
    const second = personOf(20)
    const both = holding.and(
      person(second, 'trainee'),
      onShift(second, '07:00'),
      mentoredBy(second, lena),
      claimed({ nest: nestE, no: 11, by: second, birds: birdsE, at: '09:09' }),
    )
    const { board } = both.when({ type: 'EndShift' }, says(lena)).room
    expect(toldOf(board)).toEqual([
      { why: 'mentorGone', person: tom },
      { why: 'mentorGone', person: second },
    ])
    const numbers = board.notices.map(({ no }) => no)
    expect(new Set(numbers).size).toBe(numbers.length)
  })

  it('may be anybody signed off for it who is not the trainee', () => {
    const set = (mentor: PersonId | null): Order => ({ type: 'SetMentor', person: tom, mentor })
    const two = room.and(signedOffFor(iris, 'mentor'), signedOffFor(tom, 'mentor'))
    two.when(set(iris), says(lena)).gives({ type: 'MentorSet', person: tom, mentor: iris })
    two.when(set(null), says(lena)).gives({ type: 'MentorSet', person: tom, mentor: null })
    two.when(set(ana), says(lena)).refuses({ code: 'NoMentor', person: ana })
    two.when(set(tom), says(lena)).refuses({ code: 'NoMentor', person: tom })
    two.and(removed(iris)).when(set(iris), says(lena)).refuses({ code: 'NoMentor', person: iris })
    two.and(removed(tom)).when(set(iris), says(lena)).refuses({ code: 'PersonUnknown' })
  })
})

describe('a sign-off that ends', () => {
  const ends: Order = { type: 'SetSignOffs', person: tom, signOffs: ['insectTweezers'] }

  it('leaves the claim it was needed for alone, and the lead is told', () => {
    const turn = holding.when(ends, says(pia))
    turn.includes({ type: 'LeadTold', why: 'signOffGone', nest: nestF, person: tom } as never)
    expect(turn.room.board.nests[nestF]?.hands).toMatchObject({ person: tom, birds: birdsF })
  })

  it('is no news while nothing in hand needs it', () => {
    room.when(ends, says(pia)).gives({ type: 'SignOffsSet', person: tom })
    const other: Order = { type: 'SetSignOffs', person: tom, signOffs: ['gapeSyringe', 'fluids'] }
    holding.when(other, says(pia)).gives({ type: 'SignOffsSet', person: tom })
  })

  it('of a mentor with a nest is told of beside their trainee’s, under two numbers', () => {
    const both = holding.and(claimed({ nest: nestE, no: 11, by: lena, birds: birdsE, at: '09:09' }))
    const none: Order = { type: 'SetSignOffs', person: lena, signOffs: [] }
    const { board } = both.when(none, says(pia)).room
    expect(toldOf(board)).toEqual([
      { why: 'signOffGone', person: lena },
      { why: 'mentorGone', person: tom },
    ])
    const numbers = board.notices.map(({ no }) => no)
    expect(new Set(numbers).size).toBe(numbers.length)
  })
})
