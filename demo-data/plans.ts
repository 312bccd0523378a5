// The care plans of the demo rooms: the defaults with their sources, and the amounts that follow for
// birds of about the weight the demo's birds have. An invented supervisor has looked them through.

import { assert } from '../shared/base/control.ts'
import type { Amount } from '../shared/base/values.ts'
import type { CarePlan } from '../shared/board/parts.ts'
import { type AmountGroup, capUl, prefillUl } from '../shared/care/amounts.ts'
import type { DefaultPlan } from '../shared/care/defaultPlan.ts'
import { defaultPlans } from '../shared/care/defaultPlans.ts'

/** How a plan is made for a brood: which default, what the desk calls it, what the birds weigh. */
type Wanted = { readonly from: string; readonly label: string; readonly massG: number }

type PlanWithoutId = Omit<CarePlan, 'id'>

function defaultOf(id: string): DefaultPlan {
  const plan = defaultPlans.find((one) => one.id === id)
  assert(plan !== undefined, `there is a default plan ${id}`)
  return plan
}

type Amounts = { readonly planned: Amount | null; readonly cap: Amount | null }

const microlitres = (n: number | null): Amount | null => (n === null ? null : { unit: 'uL', n })

function byWeight(group: AmountGroup, plan: DefaultPlan, massMg: number): Amounts {
  const cap = capUl(group, massMg)
  assert(cap.ok, `${plan.id} has a cap at ${massMg} mg`)
  const range = plan.amount && { loUl: plan.amount.lo, hiUl: plan.amount.hi }
  const planned = prefillUl({ group, range, weight: { massMg, atMs: 0 }, nowMs: 0 })
  return { planned: microlitres(planned), cap: microlitres(cap.value) }
}

/** Where no cap was read there is none, and the lower figure is planned, if there is one. */
function amountsOf(plan: DefaultPlan, massMg: number): Amounts {
  if (plan.amountGroup !== null) return byWeight(plan.amountGroup, plan, massMg)
  const n = plan.amount?.lo
  return { planned: n === undefined ? null : { unit: plan.amountUnit, n }, cap: null }
}

/** Of the interval and, where that is another, of the amount. */
const sourceOf = ({ source, amount }: DefaultPlan): string =>
  amount === null || source.startsWith(amount.source)
    ? source
    : `interval: ${source}; amount: ${amount.source}`

function planFor({ from, label, massG }: Wanted): PlanWithoutId {
  const plan = defaultOf(from)
  const { intervalMs } = plan
  assert(intervalMs !== null, `${from} has an interval`)
  return {
    label,
    technique: plan.technique,
    timing: { type: 'every', intervalMs },
    earlyPercent: Math.round(plan.earlyShare * 100),
    ...amountsOf(plan, massG * 1_000),
    source: sourceOf(plan),
  }
}

const robin: Wanted = { from: 'robinSizedSongbird', label: 'Robin, nestling', massG: 40 }

export const demoPlans = {
  finchHatchling: planFor({
    from: 'houseFinchHatchling',
    label: 'House finch, hatchling',
    massG: 9,
  }),
  finchNestling: planFor({ from: 'houseFinchOlder', label: 'House finch, nestling', massG: 15 }),
  goldfinch: planFor({ from: 'smallSongbird', label: 'Goldfinch, nestling', massG: 8 }),
  sparrow: planFor({ from: 'smallSongbird', label: 'Sparrow, nestling', massG: 12 }),
  sparrowFledgling: planFor({
    from: 'smallSongbirdFledgling',
    label: 'Sparrow, fledgling',
    massG: 18,
  }),
  wren: planFor({ from: 'smallInsectivore', label: 'Wren', massG: 9 }),
  bluebird: planFor({ from: 'smallSongbird', label: 'Bluebird, nestling', massG: 16 }),
  waxwing: planFor({ from: 'smallSongbird', label: 'Waxwing, nestling', massG: 18 }),
  robin: planFor(robin),
  /** The supervisor's own word for a bird that does not gape: somebody signed off feeds it. */
  robinAssisted: { ...planFor({ ...robin, label: 'Robin, assisted' }), technique: 'assisted' },
  mockingbird: planFor({
    from: 'robinSizedSongbird',
    label: 'Mockingbird, nestling',
    massG: 25,
  }),
  cardinal: planFor({ from: 'robinSizedSongbird', label: 'Cardinal, nestling', massG: 24 }),
  starling: planFor({ from: 'robinSizedSongbird', label: 'Starling, nestling', massG: 45 }),
  doveSmall: planFor({ from: 'doveFrom15g', label: 'Mourning dove from 15 g', massG: 17 }),
  dove: planFor({ from: 'doveFrom20g', label: 'Mourning dove from 20 g', massG: 30 }),
  doveOlder: planFor({ from: 'doveFrom40g', label: 'Mourning dove from 40 g', massG: 45 }),
  pigeon: planFor({ from: 'pigeonFrom40g', label: 'Rock pigeon from 40 g', massG: 100 }),
  swift: planFor({ from: 'swift', label: 'Chimney swift', massG: 14 }),
  hummingbird: planFor({ from: 'hummingbird', label: 'Hummingbird', massG: 2 }),
} as const satisfies Record<string, PlanWithoutId>

export type PlanKey = keyof typeof demoPlans
