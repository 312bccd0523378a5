// A hold never lifts by itself; what changes with time is only what it asks for.

import { expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'
import { lookAgainStanding } from '../../shared/rules/holds.ts'

const lookAgainAtMs = 1_800_000_000_000
const hold = { reason: 'crop full', by: 'p1' as PersonId, setAtMs: 0, lookAgainAtMs }

it.each([
  [-1, 'quiet'],
  [0, 'due'],
  [10 * minuteMs - 1, 'due'],
  [10 * minuteMs, 'overdue'],
  [24 * 60 * minuteMs, 'overdue'],
] as const)('%i ms after its look-again a hold is %s', (afterMs, standing) => {
  expect(lookAgainStanding(hold, lookAgainAtMs + afterMs)).toBe(standing)
})
