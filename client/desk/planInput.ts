// A care plan as it is filled in: read from text fields, with the first thing that is missing or out of
// bounds said by name. The bounds are those of the board. Pure.

import { no, ok, type Result } from '../../shared/base/control.ts'
import { type Amount, hourMs, minuteMs } from '../../shared/base/values.ts'
import { type Technique, wordMax } from '../../shared/board/constants.ts'
import type { CarePlan } from '../../shared/board/parts.ts'
import { typedAmount } from './amountInput.ts'

export type TypedPlan = {
  readonly label: string
  readonly technique: Technique
  readonly everyMinutes: string
  /** "7:00, 12:30"; where it holds any, it stands instead of the interval. */
  readonly clockTimes: string
  readonly earlyPercent: string
  readonly unit: Amount['unit']
  readonly planned: string
  readonly cap: string
  readonly source: string
}

export type PlanProblem =
  | 'label'
  | 'timing'
  | 'clockTimes'
  | 'early'
  | 'amount'
  | 'overCap'
  | 'source'

const sourceMax = 200
const clockTimesMax = 24
const intervalMs = { least: 5 * minuteMs, most: 12 * hourMs } as const
const earlyMost = 50

function minuteOfDay(text: string): number | null {
  const [, hours, minutes] = /^(\d{1,2})[:.](\d{2})$/.exec(text.trim()) ?? []
  if (hours === undefined || minutes === undefined) return null
  const minute = Number(hours) * 60 + Number(minutes)
  return Number(minutes) < 60 && minute <= 24 * 60 ? minute : null
}

function timingOf({
  clockTimes,
  everyMinutes,
}: TypedPlan): Result<CarePlan['timing'], PlanProblem> {
  if (clockTimes.trim() !== '') {
    const minutes = clockTimes.split(',').map(minuteOfDay)
    const known = minutes.flatMap((minute) => minute ?? [])
    if (known.length < minutes.length || known.length > clockTimesMax) return no('clockTimes')
    return ok({ type: 'at', minutesOfDay: [...new Set(known)].sort((a, b) => a - b) })
  }
  const ms = Math.round(Number(everyMinutes) * minuteMs)
  const isFit = everyMinutes.trim() !== '' && ms >= intervalMs.least && ms <= intervalMs.most
  return isFit ? ok({ type: 'every', intervalMs: ms }) : no('timing')
}

function amountsOf({
  planned,
  cap,
  unit,
}: TypedPlan): Result<Pick<CarePlan, 'planned' | 'cap'>, PlanProblem> {
  const plannedRead = typedAmount(planned, unit)
  const capRead = typedAmount(cap, unit)
  if (plannedRead.type === 'unreadable' || capRead.type === 'unreadable') return no('amount')
  const amounts = {
    planned: plannedRead.type === 'amount' ? plannedRead.amount : null,
    cap: capRead.type === 'amount' ? capRead.amount : null,
  }
  const isOver = amounts.planned && amounts.cap && amounts.planned.n > amounts.cap.n
  return isOver ? no('overCap') : ok(amounts)
}

/** The plan to set, or what is wrong with it first. */
export function planOfFields(typed: TypedPlan): Result<Omit<CarePlan, 'id'>, PlanProblem> {
  const label = typed.label.trim()
  const source = typed.source.trim()
  if (label === '' || label.length > wordMax) return no('label')
  const timing = timingOf(typed)
  if (!timing.ok) return timing
  const earlyPercent = Number(typed.earlyPercent)
  const isEarlyFit =
    Number.isInteger(earlyPercent) && earlyPercent >= 0 && earlyPercent <= earlyMost
  if (!isEarlyFit) return no('early')
  const amounts = amountsOf(typed)
  if (!amounts.ok) return amounts
  if (source === '' || source.length > sourceMax) return no('source')
  const { technique } = typed
  return ok({ label, technique, timing: timing.value, earlyPercent, ...amounts.value, source })
}

/** "7:00, 12:30" for a plan's clock times. */
export const clockTimesText = (minutesOfDay: readonly number[]): string =>
  minutesOfDay
    .map((minute) => `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`)
    .join(', ')
