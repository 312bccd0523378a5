import { describe, expect, it } from 'vitest'
import type { NoticeReason } from '../../shared/board/constants.ts'
import type { EventOf } from '../../shared/board/events.ts'
import { mentorsFor, traineesView } from '../../shared/views/mentorsView.ts'
import { incubatorPlaces, nestPlaces, whyNotMoveNest } from '../../shared/views/movesView.ts'
import { noticesView } from '../../shared/views/noticesView.ts'
import { shortNests } from '../../shared/views/shortNests.ts'
import { birdOf, clock, incubatorOf, nest, nestOf, planOf } from '../support/roomBuilder.ts'
import { ana, birdsOfF, calmTeam, e, f, kwame, names, priya, tess } from './teamRoom.ts'

const told = (no: number, why: NoticeReason): EventOf<'LeadTold'> => ({
  ...{ type: 'LeadTold', v: 1, no, why, atMs: clock('09:10'), nest: f },
  ...(why === 'tooQuick' ? { person: ana, visit: 2 } : {}),
})

describe('what the lead is told', () => {
  const room = calmTeam.and(told(1, 'lateTen'), told(2, 'tooQuick'))

  it('is theirs alone, latest first', () => {
    expect(noticesView(room.board, names, kwame)).toMatchObject([
      { no: 2, why: 'tooQuick', nest: { label: 'F' }, name: 'Ana' },
      { no: 1, why: 'lateTen', name: null },
    ])
    expect(noticesView(room.board, names, priya)).toEqual([])
    expect(noticesView(room.board, names, ana)).toEqual([])
  })

  it('goes when it has been read', () => {
    const read = room.when({ type: 'Acknowledge', notice: 2 }, { by: kwame, at: '09:11' }).room
    expect(noticesView(read.board, names, kwame).map(({ no }) => no)).toEqual([1])
  })

  it('leads to a call only while that is open', () => {
    const of = { ...told(3, 'nobodyForRequest'), request: 'r7' as never }
    expect(noticesView(calmTeam.and(of).board, names, kwame)).toMatchObject([{ request: null }])
  })
})

describe('where a brood or a bird can go', () => {
  const of = { person: kwame, nowMs: clock('09:10') }
  const quarantined = calmTeam.and({
    ...nest(nestOf(4), {
      label: 'Q',
      incubator: incubatorOf(2),
      birds: [{ id: birdOf(8), plan: planOf(1) }],
    }),
    isQuarantined: true,
  } as never)

  it('is every incubator, with the one it stands in', () => {
    expect(incubatorPlaces(calmTeam.board, e)).toMatchObject([
      { label: '1', isHere: true, nests: 2 },
      { label: '2', isHere: false, nests: 1 },
    ])
  })

  it('is nowhere while the nest is in hand', () => {
    const held = calmTeam.when(
      { type: 'ClaimNest', nest: f, sureEarly: true },
      { by: ana, at: '09:30' },
    ).room
    const why = whyNotMoveNest(held.board, f, { person: kwame, nowMs: clock('09:31') })
    expect(why).toMatchObject({ code: 'NestInHands', person: ana })
    expect(whyNotMoveNest(held.board, e, { person: kwame, nowMs: clock('09:31') })).toBeNull()
  })

  it('is any other nest, one of another quarantine only once that is decided', () => {
    const places = nestPlaces(quarantined.board, birdsOfF[0] ?? birdOf(3), of)
    expect(places.map(({ label, needsDecision, why }) => ({ label, needsDecision, why }))).toEqual([
      { label: 'E', needsDecision: false, why: null },
      { label: 'G', needsDecision: false, why: null },
      { label: 'Q', needsDecision: true, why: null },
    ])
  })

  it('is nowhere for the last bird of a nest', () => {
    const places = nestPlaces(quarantined.board, birdOf(7), of)
    expect(places.every(({ why }) => why?.code === 'LastBird')).toBe(true)
  })
})

describe('who learns with whom', () => {
  it('names the mentor, and says when they are not here', () => {
    expect(traineesView(calmTeam.board, names)).toEqual([
      { person: tess, name: 'Tess', mentor: kwame, mentorName: 'Kwame', isMentorAway: false },
    ])
    const gone = calmTeam.when({ type: 'EndShift' }, { by: kwame, at: '09:10' }).room
    expect(traineesView(gone.board, names)).toMatchObject([{ isMentorAway: true }])
  })

  it('offers only people signed off as mentors', () => {
    expect(mentorsFor(calmTeam.board, names, tess)).toEqual([
      { person: kwame, name: 'Kwame', isHere: true },
    ])
  })
})

it('a bird that was not counted back is missing until it is found', () => {
  const short = calmTeam
    .when({ type: 'ClaimNest', nest: f, sureEarly: true }, { by: ana, at: '09:33' })
    .room.when(
      {
        type: 'AnswerBirds',
        nest: f,
        claimNo: 4,
        answers: birdsOfF.map((bird) => ({ bird, outcome: 'ate' })),
        back: 3,
      },
      { by: ana, at: '09:36' },
    ).room
  expect(shortNests(short.board)).toEqual([
    { nest: f, label: 'F', missing: 1, sinceMs: clock('09:36') },
  ])
  const found = short.when({ type: 'BirdFound', nest: f }, { by: priya, at: '09:40' }).room
  expect(shortNests(found.board)).toEqual([])
})
