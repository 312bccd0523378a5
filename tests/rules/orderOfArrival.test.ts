// Late reports may come in any order: several devices were out of reach, and each empties its own
// outbox in its own order. With the starts fixed, when the birds are due and which rounds the nest has
// had must not depend on it. Broodmates have different intervals and different visits.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BirdId, InstantMs, PersonId } from '../../shared/base/values.ts'
import { minuteMs, secondMs } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { type Outcome, outcomes } from '../../shared/board/constants.ts'
import type { Board } from '../../shared/board/state.ts'
import { decide } from '../../shared/rules/decide.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { twicePairs } from '../../shared/rules/twice.ts'
import { known, letTimePass } from '../support/given.ts'
import { birdOf, claimed, clock, ended, nestOf, opened, personOf } from '../support/roomBuilder.ts'
import { walkRoom } from './walk.ts'

const brood = nestOf(7)
const birds = [20, 21, 22, 23].map(birdOf)

/** One late report of one visit; `claimNo` is null for a visit nobody had claimed. */
type Late = {
  readonly by: PersonId
  readonly claimNo: number | null
  readonly startedAtMs: InstantMs
  readonly isSaid: boolean
  readonly answers: readonly { readonly bird: BirdId; readonly outcome: Outcome }[]
}

const oldVisits = [31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42] as const
/** Every numbered visit was somebody's claim, made and given back in the morning. */
const settled = walkRoom.and(
  oldVisits.flatMap((no) => {
    const claim = { nest: brood, no, by: personOf(1 + (no % 4)), birds, at: '07:10' } as const
    return [claimed(claim), ended(claim, 'givenBack', '07:11')]
  }),
)

/** A visit as its device noted it: one number, one start, told in one report or in two. */
const visits = (most: number): fc.Arbitrary<readonly (readonly Late[])[]> =>
  fc
    .uniqueArray(fc.integer({ min: 0, max: 300 }), { minLength: 2, maxLength: most })
    .chain((starts) =>
      fc.tuple(
        ...starts.map((start, at) =>
          fc
            .record({
              mask: fc.integer({ min: 1, max: 15 }),
              said: fc.array(fc.constantFrom(...outcomes), { minLength: 4, maxLength: 4 }),
              isNumbered: fc.boolean(),
              isSaid: fc.boolean(),
              isInTwo: fc.boolean(),
            })
            .map(({ mask, said, isNumbered, isSaid, isInTwo }): readonly Late[] => {
              const answers = birds.flatMap((bird, index) =>
                mask & (1 << index) ? [{ bird, outcome: said[index] ?? 'ate' }] : [],
              )
              const claimNo = isNumbered ? (oldVisits[at % oldVisits.length] ?? null) : null
              const startedAtMs = clock('07:15') + start * 30 * secondMs
              const by = personOf(1 + ((claimNo ?? at) % 4))
              const late = { by, claimNo, startedAtMs, isSaid }
              if (claimNo === null || !isInTwo || answers.length < 2) return [{ ...late, answers }]
              return [
                { ...late, answers: answers.slice(0, 1) },
                { ...late, answers: answers.slice(1) },
              ]
            }),
        ),
      ),
    )

/** The reports of all visits in some order that keeps those of one visit in theirs. */
function interleave(all: readonly (readonly Late[])[], order: readonly number[]): readonly Late[] {
  const waiting = all.map((reports) => [...reports])
  const out: Late[] = []
  for (let at = 0; waiting.some((reports) => reports.length > 0); at += 1) {
    const open = waiting.filter((reports) => reports.length > 0)
    const next = open[(order[at % order.length] ?? 0) % open.length]?.shift()
    if (next) out.push(next)
  }
  return out
}

function arrive(start: Board, reports: readonly Late[]): Board {
  let board = start
  let nowMs = clock('10:00')
  for (const { by, claimNo, startedAtMs, isSaid, answers } of reports) {
    nowMs += 7 * secondMs
    board = letTimePass(board, nowMs).board
    const command = {
      type: 'AnswerBirds',
      v: 1,
      nest: brood,
      answers: answers.map((answer) => ({ ...answer })),
      ...(claimNo === null ? {} : { claimNo }),
      ...(isSaid ? { saidAtMs: startedAtMs } : {}),
    } satisfies Command
    const result = decide(board, command, {
      by,
      nowMs,
      agoMs: 20 * minuteMs,
      notedAtMs: Math.max(startedAtMs, nowMs - 20 * minuteMs),
      startedAtMs,
      isBounded: false,
    })
    expect(result.ok).toBe(true)
    if (result.ok) board = foldEvents(board, result.value)
  }
  return board
}

const duesOf = (board: Board) => birds.map((id) => birdDueAtMs(board, known(board.birds[id], id)))

/** The rounds without what depends on when and under which new number they came. */
const roundsOf = (board: Board) =>
  (board.nests[brood]?.rounds ?? [])
    .map(({ startedAtMs, person, birds: fed, isSaid, isTakenBack }) => ({
      ...{ startedAtMs, person, isSaid, isTakenBack },
      birds: fed.toSorted(),
    }))
    .toSorted((a, b) => a.startedAtMs - b.startedAtMs)

const feedsOf = (board: Board) =>
  birds.map((id) =>
    (board.birds[id]?.feeds ?? [])
      .map(({ startedAtMs, outcome, isSaid }) => ({ startedAtMs, outcome, isSaid }))
      .toSorted((a, b) => a.startedAtMs - b.startedAtMs),
  )

/** The pairs fed too close together, by their starts: a number may depend on the order of arrival. */
const pairsOf = (board: Board) => {
  const rounds = board.nests[brood]?.rounds ?? []
  const startOf = (no: number) => rounds.find((round) => round.no === no)?.startedAtMs ?? 0
  return twicePairs(board, brood)
    .map(({ pair, birds: fed, aboutAtMs }) => ({
      starts: pair.map(startOf).toSorted((a, b) => a - b),
      birds: fed.toSorted(),
      aboutAtMs,
    }))
    .toSorted((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1))
}

const orders = fc.array(fc.nat(11), { minLength: 1, maxLength: 24 })
const seed = 20_260_517

/** Whatever arrives in whatever two orders, `same` of the two boards is equal. */
const anyOrder = (most: number, same: (board: Board) => unknown, start = settled.board) =>
  fc.assert(
    fc.property(visits(most), orders, orders, (all, one, other) => {
      const first = arrive(start, interleave(all, one))
      const second = arrive(start, interleave(all, other))
      expect(same(second)).toEqual(same(first))
    }),
    { seed, numRuns: 300 },
  )

describe('late reports in whatever order', () => {
  it('make every bird of a brood due at the same instant', () => {
    anyOrder(8, duesOf)
  })

  it('make every bird due at the same instant, though more came than the board keeps', () => {
    anyOrder(12, duesOf)
  })

  it('leave the nest the same rounds', () => {
    anyOrder(8, roundsOf)
  })

  it('leave the nest the same latest rounds, though more came than it keeps', () => {
    anyOrder(12, roundsOf)
  })

  it('leave every bird the same feeds', () => {
    anyOrder(8, feedsOf)
    anyOrder(12, feedsOf)
  })

  it('leave the same pairs of records that lie too close together', () => {
    anyOrder(8, pairsOf)
  })

  it('make every bird due at the same instant while the nest is in somebody’s hands', () => {
    const claim = { nest: brood, no: 50, by: personOf(5), birds, at: '09:58' } as const
    anyOrder(8, duesOf, settled.and(...opened(claim)).board)
  })
})
