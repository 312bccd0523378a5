// What the room works with: incubators and care plans. A plan is replaced, never edited in place, so
// that a feed can always be read against the plan it was given under.

import type { IncubatorId, PlanId } from '../base/values.ts'
import { withCounter } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { incubatorsMax, plansMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board } from '../board/state.ts'
import { numberOf } from './broods.ts'
import { type Decision, happened, refuse } from './decision.ts'

export function decideIncubator(board: Board, command: CommandOf<'AddIncubator'>): Decision {
  const all = Object.values(board.incubators)
  if (all.length >= incubatorsMax) return refuse({ code: 'BoardFull', what: 'incubators' })
  if (all.some((other) => other.label === command.label)) return refuse({ code: 'LabelTaken' })
  return happened({
    type: 'IncubatorAdded',
    v: 1,
    incubator: `i${board.counters.incubator + 1}` as IncubatorId,
    label: command.label,
  })
}

/** A new plan; with `replaces`, every bird on the old one is on the new one from now. */
export function decidePlan(board: Board, command: CommandOf<'SetPlan'>): Decision {
  if (command.replaces && !board.plans[command.replaces]) {
    return refuse({ code: 'PlanUnknown', plan: command.replaces })
  }
  if (Object.keys(board.plans).length >= plansMax)
    return refuse({ code: 'BoardFull', what: 'plans' })
  const plan = { ...command.plan, id: `c${board.counters.plan + 1}` as PlanId }
  return happened({
    type: 'PlanSet',
    v: 1,
    plan,
    ...(command.replaces ? { replaces: command.replaces } : {}),
  })
}

export function evolveIncubator(board: Board, event: EventOf<'IncubatorAdded'>): Board {
  const incubator = { id: event.incubator, label: event.label, reading: null }
  const added = { ...board, incubators: { ...board.incubators, [incubator.id]: incubator } }
  return withCounter(added, 'incubator', numberOf(incubator.id))
}

export function evolvePlan(board: Board, event: EventOf<'PlanSet'>): Board {
  const { [event.replaces ?? event.plan.id]: _gone, ...others } = board.plans
  const birds = { ...board.birds }
  for (const bird of Object.values(board.birds)) {
    if (event.replaces && bird.plan === event.replaces) {
      birds[bird.id] = { ...bird, plan: event.plan.id }
    }
  }
  const set = { ...board, plans: { ...others, [event.plan.id]: event.plan }, birds }
  return withCounter(set, 'plan', numberOf(event.plan.id))
}
