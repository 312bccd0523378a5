// Default care plans for doves and pigeons, made from the handbook's tables: one plan for each run
// of rows with the same spacing. Where a row gives a span the longer end is the default, because a
// crop that has not emptied is not filled again (HRB2 p. 449).

import { hourMs } from '../base/values.ts'
import { type CropTable, mourningDoveTable, rockPigeonTable, type Spacing } from './cropTables.ts'
import { type DefaultPlan, everyStage, neverEarly } from './defaultPlan.ts'

const isSameSpacing = (a: Spacing, b: Spacing | undefined): boolean =>
  b !== undefined &&
  (a.type === 'hours'
    ? b.type === 'hours' && a.loH === b.loH && a.hiH === b.hiH
    : b.type === 'timesADay' && a.times === b.times)

/** A number of feeds a day is kept by clock times, which only the room can choose. */
const interval = (spacing: Spacing): Pick<DefaultPlan, 'intervalMs' | 'intervalRange'> =>
  spacing.type === 'timesADay'
    ? { intervalMs: null, intervalRange: null }
    : {
        intervalMs: spacing.hiH * hourMs,
        intervalRange: { loMs: spacing.loH * hourMs, hiMs: spacing.hiH * hourMs },
      }

/** The amount is left to the bird's weight: see `portion` of amounts.ts. */
const plansOf = (group: 'dove' | 'pigeon', table: CropTable): readonly DefaultPlan[] =>
  table.rows
    .filter((row, at) => !isSameSpacing(row.spacing, table.rows[at - 1]?.spacing))
    .map((row) => ({
      id: `${group}From${row.massG}g`,
      group,
      stages: everyStage,
      fromMassMg: row.massG * 1_000,
      technique: 'cropTube',
      ...interval(row.spacing),
      earlyShare: neverEarly,
      amountGroup: group,
      amountUnit: 'uL',
      amount: null,
      source: table.source,
      trust: table.trust,
    }))

export const cropFedPlans: readonly DefaultPlan[] = [
  ...plansOf('dove', mourningDoveTable),
  ...plansOf('pigeon', rockPigeonTable),
]
