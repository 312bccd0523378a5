// What must hold of visits, claims and doubts after every step of any walk, whoever says what and when.
// The board's own properties are in boardProperties.test.ts, the order of arrival in orderOfArrival.

import { describe, expect, it } from 'vitest'
import { isAsk } from '../../shared/board/rights.ts'
import type { Held } from '../../shared/board/state.ts'
import { allEvents, claims, ofAnyWalk, type Turn, walk } from './walk.ts'
import { always } from './walkedTurns.ts'

const endings = (turn: Turn) =>
  allEvents(turn).flatMap((event) => (event.type === 'ClaimEnded' ? [event] : []))

/** The claim as it was just before this turn ended it, with what was said in the same turn. */
function endedClaim(turn: Turn, claimNo: number): Held | undefined {
  const earlier = [...claims(turn.before), ...claims(turn.spokenTo)]
  return earlier.findLast((held) => held.claimNo === claimNo)
}

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
    ofAnyWalk((steps) => {
      const given = new Set<number>()
      walk(steps, (turn) => {
        for (const event of allEvents(turn)) {
          if (event.type !== 'NestClaimed') continue
          expect(given.has(event.claimNo)).toBe(false)
          given.add(event.claimNo)
        }
      })
    })
  })

  it('a visit that was started ends as fed, partly, notFed or called off, or lapsed with a doubt', () => {
    always((turn) => {
      for (const { claimNo, how } of endings(turn)) {
        const held = endedClaim(turn, claimNo)
        if (!held || (held.startIs !== 'tapped' && held.answered.length === 0)) continue
        const isDoubted = allEvents(turn).some(
          (event) => event.type === 'DoubtRaised' && event.no === claimNo,
        )
        const isGood =
          how === 'lapsed' ? isDoubted : ['fed', 'partly', 'notFed', 'calledOff'].includes(how)
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
})
