// Plans that feed at clock times: the next time after the last feed, by the clock on the wall, also when
// the clocks change. Instants are written out from the law, as in daylightSaving.test.ts.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { type Given, given, known } from '../support/given.ts'
import {
  type Clock,
  clock,
  incubator,
  incubatorOf,
  nest,
  nestOf,
  personOf,
  planOf,
  round,
} from '../support/roomBuilder.ts'
import { foundedRoom, iso, type Opening, seven, utc } from './foundedRoom.ts'
import { atEightNoonFour, inc1, iris, unfedRoom } from './smallRoom.ts'

const clocked = nestOf(9)
const clockedBird = 'b40' as BirdId
const byTheClock = given(
  ...unfedRoom,
  nest(clocked, {
    label: 'T',
    incubator: inc1,
    birds: [{ id: clockedBird, plan: atEightNoonFour }],
    at: '06:30',
  }),
)
const clockedVisit = (at: Clock, outcome: 'ate' | 'refused' = 'ate') =>
  round({ nest: clocked, no: 50, by: iris, birds: [clockedBird], at, outcome })

const dueOf = ({ board }: Given) => birdDueAtMs(board, known(board.birds[clockedBird], clockedBird))

describe('a bird fed at eight, noon and four', () => {
  it.each([
    ['08:00', '12:00', 0],
    ['08:05', '12:00', 0],
    ['09:50', '12:00', 0],
    ['10:30', '16:00', 0],
    ['12:10', '16:00', 0],
    ['16:05', '08:00', 1],
  ] as const)('and fed at %s is due at %s, %i days later', (fed, due, day) => {
    expect(dueOf(byTheClock.and(clockedVisit(fed)))).toBe(clock(due, day))
  })

  it('and offered food at eight that it refused is due after half the gap to noon', () => {
    const after = byTheClock.and(clockedVisit('08:00', 'refused'))
    expect(dueOf(after)).toBe(clock('10:00'))
  })
})

describe('a plan by clock times when the clocks change', () => {
  const bird = 'b1' as BirdId
  const where = nestOf(1)
  const brood = (minutesOfDay: readonly number[], admittedAtMs: number): readonly RoomEvent[] => [
    incubator(incubatorOf(1), '1'),
    {
      type: 'PlanSet',
      v: 1,
      plan: {
        id: planOf(1),
        label: 'by the clock',
        technique: 'cropTube',
        timing: { type: 'at', minutesOfDay: [...minutesOfDay] },
        earlyPercent: 0,
        planned: null,
        cap: null,
        source: 'invented for tests',
      },
    },
    {
      type: 'NestOpened',
      v: 1,
      nest: where,
      label: 'A',
      incubator: incubatorOf(1),
      isQuarantined: false,
      birds: [{ id: bird, band: null, species: null, plan: planOf(1) }],
      atMs: admittedAtMs,
    },
  ]
  const fedAt = (atMs: number): RoomEvent => ({
    ...round({ nest: where, no: 1, by: personOf(1), birds: [bird], at: '08:00' }),
    startedAtMs: atMs,
    atMs,
  })
  const dueAfter = (opening: Opening, minutes: readonly number[], fedAtMs: number) => {
    const past = [...brood(minutes, opening.nowMs), fedAt(fedAtMs)]
    const board = foldEvents(foundedRoom(opening), past)
    return iso(birdDueAtMs(board, known(board.birds[bird], bird)) ?? 0)
  }
  const pacific = { zone: 'America/Los_Angeles' } as const

  it('feeds at noon by the wall clock, though the room opened before the change', () => {
    const opening = { ...pacific, opensMinute: 30, nowMs: utc('2026-03-08T08:35:00Z') }
    const one = utc('2026-03-08T09:00:00Z')
    expect(dueAfter(opening, [60, 12 * 60], one)).toBe('2026-03-08T19:00:00Z')
  })

  it.each([
    ['2026-03-07T20:00:00Z', '2026-03-08T00:05:00Z', '2026-03-08T15:00:00Z'],
    ['2026-10-31T19:00:00Z', '2026-10-31T23:05:00Z', '2026-11-01T16:00:00Z'],
  ])('feeds at eight next morning by the wall clock: %s', (founded, fed, due) => {
    const opening = { ...pacific, opensMinute: seven, nowMs: utc(founded) }
    expect(dueAfter(opening, [8 * 60, 12 * 60, 16 * 60], utc(fed))).toBe(due)
  })
})
