// The care plans in use, and how a new one begins: from a default plan and, where it is known, what the
// birds weigh. A draft is only where a supervisor starts; what it leaves open stays open.

import type { Amount, LengthMs, NestId } from '../base/values.ts'
import type { Technique } from '../board/constants.ts'
import type { CarePlan } from '../board/parts.ts'
import type { Board } from '../board/state.ts'
import { capUl, prefillUl } from '../care/amounts.ts'
import type { DefaultPlan } from '../care/defaultPlan.ts'

export type DeskPlan = {
  readonly plan: CarePlan
  readonly birds: number
  readonly labels: readonly string[]
}

/** Every plan of the room, in the order they were set, with who is fed by it. */
export function deskPlans(board: Board): readonly DeskPlan[] {
  return Object.values(board.plans)
    .sort((a, b) => Number(a.id.slice(1)) - Number(b.id.slice(1)))
    .map((plan) => {
      const birds = Object.values(board.birds).filter((bird) => bird.plan === plan.id)
      const nests = [...new Set(birds.map(({ nest }): NestId => nest))]
      return {
        plan,
        birds: birds.length,
        labels: nests.flatMap((nest) => board.nests[nest]?.label ?? []),
      }
    })
}

export type PlanDraft = {
  readonly label: string
  readonly technique: Technique
  /** Null where the supervisor has to say. */
  readonly everyMs: LengthMs | null
  readonly minutesOfDay: readonly number[] | null
  readonly earlyPercent: number
  readonly unit: Amount['unit']
  readonly plannedN: number | null
  readonly capN: number | null
  readonly source: string
}

export const blankDraft: PlanDraft = {
  label: '',
  technique: 'gapeSyringe',
  everyMs: null,
  minutesOfDay: null,
  earlyPercent: 0,
  unit: 'uL',
  plannedN: null,
  capN: null,
  source: '',
}

/** A draft from a default plan; its amounts only where the birds' weight is given and a cap was read. */
export function draftOf(plan: DefaultPlan, massMg: number | null): PlanDraft {
  const { intervalMs, amountGroup: group, amountUnit, amount } = plan
  const from = {
    ...{ label: '', technique: plan.technique, everyMs: intervalMs, minutesOfDay: null },
    ...{ earlyPercent: Math.round(plan.earlyShare * 100), unit: amountUnit, source: plan.source },
  }
  if (massMg === null || group === null || amountUnit !== 'uL') {
    return { ...from, plannedN: null, capN: null }
  }
  const range = amount && { loUl: amount.lo, hiUl: amount.hi }
  const cap = capUl(group, massMg)
  const plannedN = prefillUl({ group, range, weight: { massMg, atMs: 0 }, nowMs: 0 })
  return { ...from, plannedN, capN: cap.ok ? cap.value : null }
}

/** A plan that stands, as a draft for the one that replaces it. */
export const draftFrom = (plan: CarePlan): PlanDraft => ({
  ...{ label: plan.label, technique: plan.technique, earlyPercent: plan.earlyPercent },
  everyMs: plan.timing.type === 'every' ? plan.timing.intervalMs : null,
  minutesOfDay: plan.timing.type === 'at' ? plan.timing.minutesOfDay : null,
  unit: plan.planned?.unit ?? plan.cap?.unit ?? 'uL',
  ...{ plannedN: plan.planned?.n ?? null, capN: plan.cap?.n ?? null, source: plan.source },
})
