// The care plans of the demo room: the defaults with their sources, and the amounts that follow for
// birds of the weight the demo's birds have. An invented supervisor has looked them through.

import { assert } from '../shared/base/control.ts'
import type { CarePlan } from '../shared/board/parts.ts'
import { capUl, prefillUl } from '../shared/care/amounts.ts'
import type { DefaultPlan } from '../shared/care/defaultPlan.ts'
import { defaultPlans } from '../shared/care/defaultPlans.ts'

/** How a plan is made for a brood: which default, what the desk calls it, what the birds weigh. */
type Wanted = { readonly from: string; readonly label: string; readonly massMg: number }

export type PlanWithoutId = Omit<CarePlan, 'id'>

function defaultOf(id: string): DefaultPlan {
  const plan = defaultPlans.find((one) => one.id === id)
  assert(plan !== undefined, `there is a default plan ${id}`)
  return plan
}

const microlitres = (n: number | null) => (n === null ? null : ({ unit: 'uL', n } as const))

function planFor({ from, label, massMg }: Wanted): PlanWithoutId {
  const plan = defaultOf(from)
  const { intervalMs, amountGroup: group } = plan
  assert(intervalMs !== null && group !== null, `${from} has an interval and a cap`)
  const cap = capUl(group, massMg)
  assert(cap.ok, `${from} has a cap at ${massMg} mg`)
  const range = plan.amount && { loUl: plan.amount.lo, hiUl: plan.amount.hi }
  const planned = prefillUl({ group, range, weight: { massMg, atMs: 0 }, nowMs: 0 })
  return {
    label,
    technique: plan.technique,
    timing: { type: 'every', intervalMs },
    earlyPercent: Math.round(plan.earlyShare * 100),
    planned: microlitres(planned),
    cap: microlitres(cap.value),
    source: plan.source,
  }
}

/** In the order they are set, so that the first becomes `c1`. */
export const demoPlans = [
  planFor({ from: 'houseFinchHatchling', label: 'House finch, hatchling', massMg: 9_000 }),
  planFor({ from: 'smallInsectivore', label: 'Wren', massMg: 6_000 }),
  planFor({ from: 'robinSizedSongbird', label: 'Robin, nestling', massMg: 40_000 }),
  planFor({ from: 'doveFrom20g', label: 'Mourning dove from 20 g', massMg: 30_000 }),
  planFor({ from: 'robinSizedSongbird', label: 'Mockingbird, nestling', massMg: 25_000 }),
  planFor({ from: 'smallSongbird', label: 'Sparrow, nestling', massMg: 11_000 }),
  planFor({ from: 'smallSongbird', label: 'Goldfinch, nestling', massMg: 7_000 }),
] as const
