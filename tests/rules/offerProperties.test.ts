// What must hold of offers, calls, notices and birds fed twice, after every step of any walk.

import { describe, expect, it } from 'vitest'
import { birdsOf } from '../../shared/board/change.ts'
import type { Board } from '../../shared/board/state.ts'
import { birdDueAtMs, mayFeed } from '../../shared/rules/due.ts'
import { isFree } from '../../shared/rules/offers.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import { openPairs } from '../../shared/rules/twice.ts'
import { allEvents, type Turn } from './walk.ts'
import { always, walkedTurns } from './walkedTurns.ts'

/** The board after the clock was heard and before anybody spoke; after a server start, the board then. */
const heard = ({ step, spokenTo, after }: Turn): Board =>
  step.kind === 'outage' ? after : spokenTo
const offers = (board: Board) =>
  Object.values(board.nests).flatMap((nest) => (nest.offer ? [{ nest, offer: nest.offer }] : []))
const twiceIn = (board: Board) =>
  Object.values(board.nests).map((nest) => ({
    nest,
    doubted: nest.doubts
      .filter(({ kind }) => kind === 'twice')
      .map(({ pair, birds }) => ({ pair, birds: birds.toSorted() }))
      .toSorted((a, b) => (String(a.pair) < String(b.pair) ? -1 : 1)),
    pairs: openPairs(board, nest)
      .map(({ pair, birds }) => ({ pair, birds: birds.toSorted() }))
      .toSorted((a, b) => (String(a.pair) < String(b.pair) ? -1 : 1)),
  }))

describe('of any walk it holds, once the clock has been heard, that', () => {
  it('no nest is offered that is held, in hands or settling, nor while the room is closed', () => {
    always((turn) => {
      const spokenTo = heard(turn)
      for (const { nest } of offers(spokenTo)) {
        expect([nest.hands.type, nest.hold, spokenTo.room.isClosed]).toEqual(['free', null, false])
        expect(birdsOf(spokenTo, nest.id).some((bird) => mayFeed(spokenTo, bird))).toBe(true)
      }
    })
  })

  it('no nest is offered while its doubt’s owner alone is asked, and never to that owner', () => {
    always((turn) => {
      const spokenTo = heard(turn)
      for (const { nest, offer } of offers(spokenTo)) {
        for (const doubt of nest.doubts.filter(({ kind }) => kind !== 'twice')) {
          expect(doubt.owner).not.toBe(offer.person)
          const fromMs = Math.max(doubt.raisedAtMs, spokenTo.room.openedAtMs) + 60_000
          expect(offer.madeAtMs).toBeGreaterThanOrEqual(fromMs)
        }
      }
    })
  })

  it('nobody is offered a nest who is not free or may feed none of its birds, nor two nests', () => {
    always((turn) => {
      const spokenTo = heard(turn)
      const people = offers(spokenTo).map(({ offer }) => offer.person)
      expect(new Set(people).size).toBe(people.length)
      for (const { nest, offer } of offers(spokenTo)) {
        expect(isFree(spokenTo, offer.person)).toBe(true)
        const birds = birdsOf(spokenTo, nest.id)
        expect(birds.some((bird) => mayFeed(spokenTo, bird, offer.person))).toBe(true)
      }
    })
  })

  it('an offer stands no longer than its 45 seconds', () => {
    always((turn) => {
      for (const { offer } of offers(heard(turn))) {
        expect(offer.endsAtMs).toBe(offer.madeAtMs + 45_000)
        expect(offer.endsAtMs).toBeGreaterThan(turn.nowMs)
      }
    })
  })

  it('the board offers a nest only when it is late by five minutes, to nobody it asked before', () => {
    always(({ before, clockEvents, nowMs }) => {
      for (const event of clockEvents) {
        if (event.type !== 'OfferMade' || clockEvents[0] !== event) continue
        const dues = birdsOf(before, event.nest)
          .filter((bird) => mayFeed(before, bird, event.person))
          .flatMap((bird) => birdDueAtMs(before, bird) ?? [])
        expect(Math.min(...dues)).toBeLessThanOrEqual(nowMs - 300_000)
        expect(before.nests[event.nest]?.tried).not.toContain(event.person)
        expect(before.nests[event.nest]?.tried.length).toBeLessThan(3)
      }
    })
  })
})

describe('of any walk it holds that', () => {
  it('the doubts of birds fed twice are the pairs computed anew', () => {
    always(({ after }) => {
      for (const { doubted, pairs } of twiceIn(after)) expect(doubted).toEqual(pairs)
    })
  })

  it('some birds were fed twice, some three times, and some were looked at', () => {
    const doubts = walkedTurns
      .flatMap(({ after }) => twiceIn(after))
      .filter((one) => one.pairs.length)
    expect(doubts.some(({ pairs }) => pairs.length > 1)).toBe(true)
    const nests = walkedTurns.flatMap(({ after }) => Object.values(after.nests))
    expect(nests.some(({ settledTwice }) => settledTwice.length > 0)).toBe(true)
  })

  it('every number of a notice is given once', () => {
    always((turn) => {
      const given = allEvents(turn).flatMap((event) =>
        event.type === 'LeadTold' ? [event.no] : [],
      )
      expect(new Set(given).size).toBe(given.length)
      expect(given.every((no) => no > turn.before.counters.notice)).toBe(true)
      const known = turn.after.notices.map(({ no }) => no)
      expect(new Set(known).size).toBe(known.length)
    })
  })

  it('a call is in the hands of one person, who is here and may answer it', () => {
    always(({ after }) => {
      for (const { taken, kind } of Object.values(after.requests)) {
        if (!taken) continue
        const person = after.people[taken.person]
        expect([person?.isRemoved, person?.shift === 'off']).toEqual([false, false])
        expect(kind).not.toBe('')
      }
    })
  })

  it('a call waits for somebody, is taken, or was told the lead', () => {
    always((turn) => {
      const spokenTo = heard(turn)
      for (const request of Object.values(spokenTo.requests)) {
        const isPut = askedOf(spokenTo, request).length > 0
        expect(isPut || request.taken !== null || request.isLeadTold).toBe(true)
      }
    })
  })

  it('no claim carries a bird for which fluids are called', () => {
    always(({ events, spokenTo, command }) => {
      if (command?.type !== 'ClaimNest') return
      const called = Object.values(spokenTo.requests).flatMap(({ kind, bird }) =>
        kind === 'fluids' && bird ? [bird] : [],
      )
      for (const event of events) {
        if (event.type !== 'NestClaimed') continue
        expect(event.birds.filter((bird) => called.includes(bird))).toEqual([])
      }
    })
  })

  it('a call for a bird is for the nest the bird is in', () => {
    always(({ after }) => {
      for (const { bird, nest } of Object.values(after.requests)) {
        if (bird) expect(after.birds[bird]?.nest).toBe(nest)
      }
    })
  })

  it('the lead is told of a late nest once, until it is fed, held, looked at or the day opens', () => {
    always(({ clockEvents }) => {
      const late = clockEvents.flatMap((event) =>
        event.type === 'LeadTold' &&
        ['lateTen', 'threeAsked', 'nobodySignedOff'].includes(event.why)
          ? [event.nest]
          : [],
      )
      const isOneDay = !clockEvents.some(({ type }) => type === 'DayOpened')
      if (isOneDay) expect(new Set(late).size).toBe(late.length)
    })
  })

  it('no nest has more birds than a claim can carry, and none is empty', () => {
    always(({ after }) => {
      for (const { id } of Object.values(after.nests)) {
        expect(birdsOf(after, id).length).toBeGreaterThan(0)
        expect(birdsOf(after, id).length).toBeLessThanOrEqual(12)
      }
    })
  })

  it('no band is in one nest twice', () => {
    always(({ after }) => {
      for (const { id } of Object.values(after.nests)) {
        const bands = birdsOf(after, id).flatMap(({ band }) => band ?? [])
        expect(new Set(bands).size).toBe(bands.length)
      }
    })
  })

  it('a doubt is only about birds of its nest', () => {
    always(({ after }) => {
      for (const { id, doubts } of Object.values(after.nests)) {
        for (const { birds } of doubts) {
          expect(birds.map((bird) => after.birds[bird]?.nest)).toEqual(birds.map(() => id))
        }
      }
    })
  })

  it('hands are moved by no correction: a claim it ends is one it told to stop', () => {
    always(({ command, spokenTo, after }) => {
      if (command?.type !== 'CorrectFeed') return
      for (const nest of Object.values(spokenTo.nests)) {
        const now = after.nests[nest.id]?.hands
        if (nest.hands.type === 'free') expect(now?.type).toBe('free')
        else if (now?.type === 'held') expect(now.claimNo).toBe(nest.hands.claimNo)
      }
    })
  })
})
