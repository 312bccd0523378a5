// How much a feed holds, by group and mass: the usual range, the most it may be, and what a screen
// may fill in beforehand. Sums only; no clock, and no bird's plan is looked up here. Masses are
// whole milligrams, amounts whole microlitres, and a millilitre of formula is taken as a gram.
// A cap belongs to its group: a dove's crop takes over twice a songbird's share of body weight.
// A room's supervisor may set other figures in a plan; these are where a plan starts.

import { no, ok, type Result, unreachable } from '../base/control.ts'
import { hourMs, type InstantMs, type LengthMs } from '../base/values.ts'
import {
  type CropRow,
  type CropTable,
  mourningDoveTable,
  rockPigeonTable,
  rowAt,
  type Spacing,
} from './cropTables.ts'

/** passerine: a songbird not named otherwise. finch: finches and the house sparrow. */
export type AmountGroup = 'passerine' | 'finch' | 'dove' | 'pigeon'

export type AmountRange = { readonly loUl: number; readonly hiUl: number }

export type AmountRefusal =
  /** Zero, negative, not a number, or not whole milligrams. */
  | { readonly code: 'NotAMass' }
  /** The handbook's table starts heavier: the supervisor says how much. */
  | { readonly code: 'LighterThanTable'; readonly lightestMg: number }

/** A feed of a small songbird, about. Common practice, no source. */
export const smallSongbirdRange: AmountRange = { loUl: 200, hiUl: 500 }

/** A feed of a songbird the size of a robin, about. Common practice, no source. */
export const robinSizedRange: AmountRange = { loUl: 1_000, hiUl: 2_000 }

/** The lightest bird in which the robin-sized row's lower figure is no more than 5 %: derived. */
const robinSizedFromMg = 20_000

/** HRB2 p. 750, and only while the crop is clearing. */
const finchCaps = { fromMg: 15_000, fromUl: 750, heavierFromMg: 17_000, heavierUl: 1_000 } as const

/** A weight older than this says too little about a nestling to measure its food by. */
export const freshWeightMs: LengthMs = 36 * hourMs

export type WeightTaken = { readonly massMg: number; readonly atMs: InstantMs }

const fivePercentUl = (massMg: number): number => Math.floor(massMg / 20)

/** Below 15 g the share the table's first figure comes to, 5 %; from 15 g the lower figure holds. */
function finchCapUl(massMg: number): number {
  if (massMg >= finchCaps.heavierFromMg) return finchCaps.heavierUl
  return massMg >= finchCaps.fromMg ? finchCaps.fromUl : fivePercentUl(massMg)
}

function cropRow(table: CropTable, massMg: number): Result<CropRow, AmountRefusal> {
  const row = rowAt(table, massMg)
  if (row !== undefined) return ok(row)
  return no({ code: 'LighterThanTable', lightestMg: (table.rows[0]?.massG ?? 0) * 1_000 })
}

const songbirdRow = (massMg: number): AmountRange =>
  massMg >= robinSizedFromMg ? robinSizedRange : smallSongbirdRange

/** `spacing` is null for songbirds, whose interval stands in their plan. */
export type Portion = AmountRange & { readonly capUl: number; readonly spacing: Spacing | null }

function songbirdPortion(range: AmountRange, capUl: number): Portion {
  const { loUl, hiUl } = range
  return { loUl: Math.min(loUl, capUl), hiUl: Math.min(hiUl, capUl), capUl, spacing: null }
}

function cropPortion(table: CropTable, massMg: number): Result<Portion, AmountRefusal> {
  const row = cropRow(table, massMg)
  if (!row.ok) return row
  const { loUl, hiUl, spacing } = row.value
  return ok({ loUl, hiUl, capUl: hiUl, spacing })
}

/**
 * What a bird of this group and mass is usually given a feed, and the most it may be given.
 *
 * passerine: the practice row for its size, nowhere over 5 % of body weight, which is the cap.
 * finch: the small songbird's row; cap 750 uL from 15 g and 1000 uL from 17 g (HRB2 p. 750).
 * dove, pigeon: the table's row, its upper figure the cap (HRB2 p. 446 and 447), with the hours
 * between feeds as `spacing`; for songbirds that stands in the plan and is null here.
 */
export function portion(group: AmountGroup, massMg: number): Result<Portion, AmountRefusal> {
  if (!(Number.isSafeInteger(massMg) && massMg > 0)) return no({ code: 'NotAMass' })
  switch (group) {
    case 'passerine':
      return ok(songbirdPortion(songbirdRow(massMg), fivePercentUl(massMg)))
    case 'finch':
      return ok(songbirdPortion(smallSongbirdRange, finchCapUl(massMg)))
    case 'dove':
      return cropPortion(mourningDoveTable, massMg)
    case 'pigeon':
      return cropPortion(rockPigeonTable, massMg)
    default:
      return unreachable(group)
  }
}

/** The most one feed may hold for this group at this mass, in whole microlitres; see `portion`. */
export function capUl(group: AmountGroup, massMg: number): Result<number, AmountRefusal> {
  const found = portion(group, massMg)
  return found.ok ? ok(found.value.capUl) : found
}

export type PrefillQuestion = {
  readonly group: AmountGroup
  /** The plan's own range. A songbird without one has no figure; a dove has its table. */
  readonly range: AmountRange | null
  readonly weight: WeightTaken | null
  readonly nowMs: InstantMs
}

const isFresh = (weight: WeightTaken, nowMs: InstantMs): boolean =>
  nowMs >= weight.atMs && nowMs - weight.atMs < freshWeightMs

/**
 * What a screen may fill in before the feed, in whole microlitres; null means an empty field.
 *
 * Only with a weight under 36 h old. Songbirds: the smaller of the plan's upper figure and 5 % of
 * that weight, as 0.2 mL would be 10 % of a 2 g hatchling (derived). Doves and pigeons: the lower
 * figure of the table's row, since they beg when full (HRB2 p. 449). Never over the group's cap.
 */
export function prefillUl(question: PrefillQuestion): number | null {
  const { group, range, weight, nowMs } = question
  if (weight === null || !isFresh(weight, nowMs)) return null
  const found = portion(group, weight.massMg)
  if (!found.ok) return null
  if (group === 'dove' || group === 'pigeon') {
    return range === null ? found.value.loUl : Math.min(range.hiUl, found.value.loUl)
  }
  if (range === null) return null
  return Math.min(range.hiUl, fivePercentUl(weight.massMg), found.value.capUl)
}
