// How this person can have this nest: at once, after looking, early and meaning it, as an extra feed,
// or not at all and why. It asks the rule that decides, so a button never promises what is refused.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import type { Rejection } from '../rules/rejection.ts'
import { type ClaimOptions, whyNotClaim } from '../rules/whyNotClaim.ts'

export type ClaimWay =
  | { readonly type: 'claim' }
  | { readonly type: 'lookFirst'; readonly doubts: readonly number[] }
  /** Before its window: `doubts` are to be looked at too. */
  | {
      readonly type: 'sureEarly'
      readonly readyAtMs: InstantMs
      readonly doubts: readonly number[]
    }
  | {
      readonly type: 'extra'
      readonly birds: readonly BirdId[]
      readonly afterFeed: number
      readonly readyAtMs: InstantMs
      readonly doubts: readonly number[]
    }
  | { readonly type: 'refused'; readonly why: Rejection }

type Asked = { readonly person: PersonId; readonly nest: NestId; readonly nowMs: InstantMs }

const ask = (board: Board, { person, nest, nowMs }: Asked, options: ClaimOptions = {}) =>
  whyNotClaim(board, person, nest, nowMs, options)

/** The doubts left to see under these options; null where something else stands in the way. */
function doubtsLeft(board: Board, asked: Asked, options: ClaimOptions): readonly number[] | null {
  const why = ask(board, asked, options)
  if (why === null) return []
  return why.code === 'InDoubt' ? why.doubts : null
}

type TooSoon = { bird: BirdId; readyAtMs: InstantMs; needs: 'sureEarly' | 'extra' }

const tooSoonIn = (why: Extract<Rejection, { code: 'NothingReady' }>): readonly TooSoon[] =>
  why.birds.flatMap(({ bird, why: reason }) =>
    reason.type === 'tooSoon' ? [{ bird, readyAtMs: reason.readyAtMs, needs: reason.needs }] : [],
  )

function early(board: Board, asked: Asked, soon: readonly TooSoon[]): ClaimWay | null {
  const sure = soon.filter(({ needs }) => needs === 'sureEarly')
  if (sure.length === 0) return null
  const doubts = doubtsLeft(board, asked, { sureEarly: true })
  if (doubts === null) return null
  return { type: 'sureEarly', readyAtMs: Math.min(...sure.map((one) => one.readyAtMs)), doubts }
}

function extra(board: Board, asked: Asked, soon: readonly TooSoon[]): ClaimWay | null {
  const birds = soon.map(({ bird }) => bird)
  const afterFeed = Math.max(0, ...birds.map((bird) => board.birds[bird]?.feeds.at(-1)?.no ?? 0))
  if (birds.length === 0 || afterFeed === 0) return null
  const doubts = doubtsLeft(board, asked, {
    extra: { birds: [...birds], reason: 'extra', afterFeed },
  })
  if (doubts === null) return null
  const readyAtMs = Math.min(...soon.map((one) => one.readyAtMs))
  return { type: 'extra', birds, afterFeed, readyAtMs, doubts }
}

/** The way in at `nowMs`, the shortest that the rules allow. */
export function claimWay(board: Board, asked: Asked): ClaimWay {
  const why = ask(board, asked)
  if (why === null) return { type: 'claim' }
  if (why.code === 'InDoubt') return { type: 'lookFirst', doubts: why.doubts }
  if (why.code !== 'NothingReady') return { type: 'refused', why }
  const soon = tooSoonIn(why)
  return early(board, asked, soon) ?? extra(board, asked, soon) ?? { type: 'refused', why }
}
