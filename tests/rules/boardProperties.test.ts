// What must hold of time, of the board and of the facts written down, after every step of any walk.

import { describe, expect, it } from 'vitest'
import { canonical } from '../../shared/base/hash.ts'
import { hourMs } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import { eventSchema, type RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { decideTime, nextWakeAtMs } from '../../shared/rules/time.ts'
import { allEvents, ofAnyWalk, walk, walkRoom } from './walk.ts'
import { always } from './walkedTurns.ts'

/** What a walk must have met, or the facts above would hold of nothing. */
const roundFacts = [
  ...['NestClaimed', 'LeaseExtended', 'FeedStarted', 'RoundRecorded', 'RoundCorrected'],
  ...['RoundTakenBack', 'ClaimBirdsStruck', 'ClaimEnded', 'StopCalled', 'DoubtRaised'],
  ...['DoubtShrunk', 'DoubtEnded', 'BirdsLooked', 'ReportSetAside', 'HoldSet', 'HoldLifted'],
  ...['NestOpened', 'ArrivalReleased', 'DayOpened', 'RoomOpened', 'CivilOffsetChanged'],
  ...['ShiftBegun', 'ShiftEnded', 'BreakBegun', 'BreakEnded', 'SignOffsSet', 'PersonRemoved'],
  ...['OfferMade', 'OfferEnded', 'LeadTold', 'NoticeSeen', 'RequestRaised', 'RequestTaken'],
  ...['RequestDeclined', 'RequestResolved', 'MentorSet', 'RoomSet', 'NestMoved', 'BirdMoved'],
  ...[
    'BirdsShort',
    'BirdsFound',
    'RoundMoved',
    'PersonUnreachable',
    'PersonReachable',
    'DayClosed',
  ],
] as const
const claimRefusals = [
  ...['NotOnShift', 'NestUnknown', 'NestTaken', 'NothingReady', 'FinishFirst', 'AnswerFirst'],
  ...['InDoubt', 'NotYours', 'SayWhatHappenedFirst', 'Expired', 'NotAllowed', 'MentorAway'],
  ...['NotFree', 'NoMentor', 'RequestUnknown', 'RequestTaken', 'ResolveFirst', 'NestInHands'],
  ...['LastBird', 'QuarantineDiffers'],
] as const

describe('of any walk it holds that', () => {
  it('time leaves nothing behind, and nothing is due before the next waking', () => {
    always(({ spokenTo, after, nowMs, step: { kind } }) => {
      const board = kind === 'outage' ? after : spokenTo
      expect(decideTime(board, nowMs)).toEqual([])
      const wakeMs = nextWakeAtMs(board)
      if (wakeMs === null) return
      expect(wakeMs).toBeGreaterThan(nowMs)
      for (const share of [0.1, 0.5, 0.9]) {
        const betweenMs = Math.floor(nowMs + share * (wakeMs - 1 - nowMs))
        expect(decideTime(board, betweenMs)).toEqual([])
      }
      expect(decideTime(board, wakeMs - 1)).toEqual([])
    })
  })

  it('every hold is set with a look-again, within a day', () => {
    always((turn) => {
      for (const event of turn.events) {
        if (event.type !== 'HoldSet') continue
        expect(event.hold.lookAgainAtMs).toBeGreaterThanOrEqual(event.hold.setAtMs)
        expect(event.hold.lookAgainAtMs).toBeLessThanOrEqual(turn.nowMs + 24 * hourMs)
      }
    })
  })

  it('every part of the board stays within its bound', () => {
    always(({ after }) => {
      const nests = Object.values(after.nests)
      const birds = Object.values(after.birds)
      expect(Math.max(...nests.map(({ doubts }) => doubts.length))).toBeLessThanOrEqual(4)
      expect(Math.max(...nests.map(({ rounds }) => rounds.length))).toBeLessThanOrEqual(8)
      expect(Math.max(...birds.map(({ feeds }) => feeds.length))).toBeLessThanOrEqual(6)
      expect(Math.max(...birds.map(({ masses }) => masses.length))).toBeLessThanOrEqual(2)
      expect(after.days.length).toBeLessThanOrEqual(3)
      expect(after.setAside.length).toBeLessThanOrEqual(20)
      expect(after.notices.length).toBeLessThanOrEqual(50)
      expect(Object.keys(after.requests).length).toBeLessThanOrEqual(50)
      expect(nests.length).toBeLessThanOrEqual(120)
      expect(birds.length).toBeLessThanOrEqual(400)
    })
  })

  it('every fact is one the journal can hold, and every number stays whole', () => {
    always((turn) => {
      for (const event of allEvents(turn)) expect(() => eventSchema.parse(event)).not.toThrow()
      expect(Number.isSafeInteger(turn.after.counters.visit + 1)).toBe(true)
    })
  })

  it('a fed bird was last fed at the start of a round, never before the last kept feed', () => {
    always(({ after }) => {
      for (const { feeds } of Object.values(after.birds)) {
        const starts = feeds.map(({ startedAtMs }) => startedAtMs)
        expect(starts).toEqual(starts.toSorted((a, b) => a - b))
      }
    })
  })

  it('the facts written down and read again make the same board', () => {
    ofAnyWalk((steps) => {
      const events: RoomEvent[] = []
      const walked = walk(steps, (turn) => events.push(...allEvents(turn)))
      const read = JSON.parse(JSON.stringify(events)) as RoomEvent[]
      const folded = foldEvents(walkRoom.board, read)
      expect(hashBoard(folded)).toBe(hashBoard(walked))
      expect(canonical(folded)).toBe(canonical(walked))
    })
  })

  it('between them the walks meet every fact of the round, and refusals of every order', () => {
    const met = new Set<string>()
    const refused = new Set<string>()
    always((turn) => {
      for (const { type } of allEvents(turn)) met.add(type)
      if (turn.rejection) refused.add(turn.rejection.code)
    })
    expect([...roundFacts].filter((type) => !met.has(type))).toEqual([])
    expect([...claimRefusals].filter((code) => !refused.has(code))).toEqual([])
  })

  it('a board read back from its own text has the same hash', () => {
    ofAnyWalk((steps) => {
      const board = walk(steps, () => undefined)
      expect(hashBoard(JSON.parse(JSON.stringify(board)) as Board)).toBe(hashBoard(board))
    })
  })
})
