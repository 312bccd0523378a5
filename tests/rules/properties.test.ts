// What must hold after every step of any walk, whoever says what and when. Each fact draws its own
// walks at a fixed seed, so that a failure comes back and shrinks by itself.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonical } from '../../shared/base/hash.ts'
import { hourMs } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import { eventSchema, type RoomEvent } from '../../shared/board/events.ts'
import { isAsk } from '../../shared/board/rights.ts'
import type { Board, Held } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { decideTime, nextWakeAtMs } from '../../shared/rules/time.ts'
import { type Step, step, type Turn, walk, walkRoom } from './walk.ts'

const seed = 20_260_516
const runs = 400
const walks = fc.array(step, { minLength: 1, maxLength: 70, size: 'max' })

/** Whatever the walk, `fact` holds of each of its turns. */
const always = (fact: (turn: Turn) => void, numRuns = runs) =>
  fc.assert(
    fc.property(walks, (steps) => {
      walk(steps, fact)
    }),
    { seed, numRuns },
  )

const allEvents = (turn: Turn): readonly RoomEvent[] => [...turn.clockEvents, ...turn.events]
const claims = (board: Board): readonly Held[] =>
  Object.values(board.nests).flatMap(({ hands }) => (hands.type === 'held' ? [hands] : []))
const endings = (turn: Turn) =>
  allEvents(turn).flatMap((event) => (event.type === 'ClaimEnded' ? [event] : []))

/** The claim as it was just before this turn ended it, with what was said in the same turn. */
function endedClaim(turn: Turn, claimNo: number): Held | undefined {
  const earlier = [...claims(turn.before), ...claims(turn.spokenTo)]
  return earlier.findLast((held) => held.claimNo === claimNo)
}

/** What a walk must have met, or the facts above would hold of nothing. */
const roundFacts = [
  ...['NestClaimed', 'LeaseExtended', 'FeedStarted', 'RoundRecorded', 'RoundCorrected'],
  ...['RoundTakenBack', 'ClaimBirdsStruck', 'ClaimEnded', 'StopCalled', 'DoubtRaised'],
  ...['DoubtShrunk', 'DoubtEnded', 'BirdsLooked', 'ReportSetAside', 'HoldSet', 'HoldLifted'],
  ...['NestOpened', 'ArrivalReleased', 'DayOpened', 'RoomOpened', 'CivilOffsetChanged'],
  ...['ShiftBegun', 'ShiftEnded', 'BreakBegun', 'BreakEnded', 'SignOffsSet', 'PersonRemoved'],
] as const
const claimRefusals = [
  ...['NotOnShift', 'NestUnknown', 'NestTaken', 'NothingReady', 'FinishFirst', 'AnswerFirst'],
  ...['InDoubt', 'NotYours', 'SayWhatHappenedFirst', 'Expired', 'NotAllowed'],
] as const

const visitReports: ReadonlySet<string> = new Set([
  ...['StartFeed', 'AnswerBirds', 'CalledAway', 'SayWhatHappened'],
  ...['Looked', 'TakeBackFeed', 'CorrectFeed'],
])

const isReport = ({ command }: Turn) =>
  command !== null && command.type !== 'Withdrawn' && !isAsk(command.type)

describe('of any walk it holds that', () => {
  it('no report is refused', () => {
    always((turn) => {
      if (isReport(turn)) expect(turn.rejection).toBeNull()
    })
  })

  it('a report of somebody here leaves a record of every bird it answers, or is set aside', () => {
    always((turn) => {
      const { command, by, spokenTo, events } = turn
      if (command?.type !== 'AnswerBirds' || spokenTo.people[by]?.isRemoved) return
      const recorded = events.flatMap((event) =>
        event.type === 'RoundRecorded' ? event.answers.map(({ bird }) => bird) : [],
      )
      const isSetAside = events.some(({ type }) => type === 'ReportSetAside')
      const missing = command.answers.filter(({ bird }) => !recorded.includes(bird))
      expect(missing.length === 0 || isSetAside).toBe(true)
    })
  })

  it('nobody has two nests', () => {
    always(({ after }) => {
      const people = claims(after).map(({ person }) => person)
      expect(new Set(people).size).toBe(people.length)
    })
  })

  it('no claim number is given twice', () => {
    const given = new Set<number>()
    fc.assert(
      fc.property(walks, (steps) => {
        given.clear()
        walk(steps, (turn) => {
          for (const event of allEvents(turn)) {
            if (event.type !== 'NestClaimed') continue
            expect(given.has(event.claimNo)).toBe(false)
            given.add(event.claimNo)
          }
        })
      }),
      { seed, numRuns: runs },
    )
  })

  it('a visit that was started ends as fed, partly, notFed, or lapsed with a doubt', () => {
    always((turn) => {
      for (const { claimNo, how } of endings(turn)) {
        const held = endedClaim(turn, claimNo)
        if (!held || (held.startIs !== 'tapped' && held.answered.length === 0)) continue
        const isDoubted = allEvents(turn).some(
          (event) => event.type === 'DoubtRaised' && event.no === claimNo,
        )
        const isGood = how === 'lapsed' ? isDoubted : ['fed', 'partly', 'notFed'].includes(how)
        expect(isGood ? 'as it may' : `${how}, ${isDoubted ? 'with' : 'without'} a doubt`).toBe(
          'as it may',
        )
      }
    })
  })

  it('a claim that lapses leaves a doubt about the birds nobody answered', () => {
    always((turn) => {
      for (const { claimNo, how } of endings(turn)) {
        const held = endedClaim(turn, claimNo)
        if (how !== 'lapsed' || !held) continue
        const raised = allEvents(turn).find(
          (event) => event.type === 'DoubtRaised' && event.no === claimNo,
        )
        const unanswered = held.birds.filter((bird) => !held.answered.includes(bird))
        expect(raised?.type === 'DoubtRaised' && raised.birds).toEqual(unanswered)
      }
    })
  })

  it('a nest leaves somebody’s hands only by an ending that is said', () => {
    always((turn) => {
      const ended = endings(turn).map(({ claimNo }) => claimNo)
      const still = claims(turn.after).map(({ claimNo }) => claimNo)
      for (const { claimNo } of claims(turn.before)) {
        expect(still.includes(claimNo) || ended.includes(claimNo)).toBe(true)
      }
    })
  })

  it('somebody else’s report of a visit ends a claim only by telling the holder to stop', () => {
    always(({ command, by, events, spokenTo }) => {
      if (command === null || !visitReports.has(command.type)) return
      for (const event of events) {
        if (event.type !== 'ClaimEnded') continue
        const held = claims(spokenTo).find(({ claimNo }) => claimNo === event.claimNo)
        if (held && held.person !== by) {
          expect(events.map(({ type }) => type)).toContain('StopCalled')
        }
      }
    })
  })

  it('a new visit number is given to one nest only, and to one thing there', () => {
    always(({ command, spokenTo, events }) => {
      if (command === null) return
      const given = new Map<number, string>()
      for (const event of events) {
        const no = 'claimNo' in event ? event.claimNo : 'no' in event ? event.no : null
        if (no === null || no <= spokenTo.counters.visit || !('nest' in event)) continue
        if (!['NestClaimed', 'RoundRecorded', 'DoubtRaised'].includes(event.type)) continue
        expect(given.get(no)).toBeUndefined()
        given.set(no, `${event.type} ${event.nest}`)
      }
    })
  })

  it('no claim ends at the first turn after an outage', () => {
    always((turn) => {
      if (turn.step.kind === 'outage') expect(endings(turn)).toEqual([])
    })
  })

  it('a claim asked for carries only birds that person may feed', () => {
    always(({ command, events, spokenTo, by }) => {
      if (command?.type !== 'ClaimNest') return
      for (const event of events) {
        if (event.type !== 'NestClaimed') continue
        expect(spokenTo.nests[event.nest]?.hold).toBeNull()
        for (const id of event.birds) {
          const bird = spokenTo.birds[id]
          const plan = bird?.plan ? spokenTo.plans[bird.plan] : undefined
          expect([bird?.standing.type, bird?.hold]).toEqual(['released', null])
          expect(spokenTo.people[by]?.signOffs).toContain(plan?.technique)
        }
      }
    })
  })

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

  it('a doubt is about some bird, and no nest has two under one number', () => {
    always(({ after }) => {
      for (const { doubts } of Object.values(after.nests)) {
        expect(doubts.every(({ birds }) => birds.length > 0)).toBe(true)
        expect(new Set(doubts.map(({ no }) => no)).size).toBe(doubts.length)
      }
    })
  })

  it('a claim in hand has a bird still to answer', () => {
    always(({ after }) => {
      for (const { birds, answered } of claims(after)) {
        expect(birds.filter((bird) => !answered.includes(bird))).not.toEqual([])
      }
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
    fc.assert(
      fc.property(walks, (steps: readonly Step[]) => {
        const events: RoomEvent[] = []
        const walked = walk(steps, (turn) => events.push(...allEvents(turn)))
        const read = JSON.parse(JSON.stringify(events)) as RoomEvent[]
        const folded = foldEvents(walkRoom.board, read)
        expect(hashBoard(folded)).toBe(hashBoard(walked))
        expect(canonical(folded)).toBe(canonical(walked))
      }),
      { seed, numRuns: runs },
    )
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
    fc.assert(
      fc.property(walks, (steps: readonly Step[]) => {
        const board = walk(steps, () => undefined)
        expect(hashBoard(JSON.parse(JSON.stringify(board)) as Board)).toBe(hashBoard(board))
      }),
      { seed, numRuns: 60 },
    )
  })
})
