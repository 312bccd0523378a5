// The commands every demo room begins with, made from its data: people, plans, incubators, broods and
// their weights, the shift, and what the incubators show. Ids follow from the order.

import { assert } from '../shared/base/control.ts'
import { codeOf, type SpeciesList } from '../shared/care/speciesCodes.ts'
import type { Brood, DemoRoom, Step } from './demoRoom.ts'
import { bird, incubator, minutes, person, plan } from './ids.ts'
import { demoPlans, type PlanKey } from './plans.ts'

/** Which list of species codes the demo's centre keeps. */
export const demoList: SpeciesList = 'BBL'

/** The broods come in one after the other, so that the first round is not all at one moment. */
const admittedFromMin = 1
const admittingMin = 30

/** Only the plans the room's birds are on, in the order they are set. */
const planKeysOf = ({ broods }: DemoRoom): readonly PlanKey[] => {
  const used = new Set(broods.flatMap(({ birds }) => birds.map((one) => one.plan)))
  return (Object.keys(demoPlans) as readonly PlanKey[]).filter((key) => used.has(key))
}

function speciesCode(name: string): string {
  const code = codeOf(name, demoList)
  assert(code !== null, `${name} has a code`)
  return code
}

const peopleSteps = ({ people }: DemoRoom): readonly Step[] =>
  people.slice(1).map(({ name, role, signOffs }) => ({
    afterMs: 0,
    by: person(1),
    command: { type: 'AddPerson', v: 1, role, signOffs: [...signOffs], private: { name } },
  }))

/** A trainee may claim while the mentor named here is on shift. */
const mentorSteps = ({ people, onShift: [lead] }: DemoRoom): readonly Step[] =>
  people.flatMap(({ mentor }, at) =>
    mentor === undefined
      ? []
      : [
          {
            afterMs: 0,
            by: lead,
            command: { type: 'SetMentor', v: 1, person: person(at + 1), mentor },
          },
        ],
  )

const planSteps = (room: DemoRoom): readonly Step[] =>
  planKeysOf(room).map((key) => ({
    afterMs: 0,
    by: person(1),
    command: { type: 'SetPlan', v: 1, plan: demoPlans[key] },
  }))

const incubatorSteps = ({ incubators, onShift: [lead] }: DemoRoom): readonly Step[] =>
  Array.from({ length: incubators }, (_, at) => ({
    afterMs: 0,
    by: lead,
    command: { type: 'AddIncubator', v: 1, label: String(at + 1) },
  }))

const shiftSteps = ({ onShift }: DemoRoom): readonly Step[] =>
  onShift.map((by) => ({
    afterMs: minutes(0.5),
    by,
    command: { type: 'BeginShift', v: 1 },
  }))

function broodSteps(room: DemoRoom): readonly Step[] {
  const keys = planKeysOf(room)
  const [lead] = room.onShift
  let firstBird = 1
  return room.broods.flatMap((brood, at) => {
    const afterMs = minutes(admittedFromMin + (at * admittingMin) / room.broods.length)
    const admitted: Step = { afterMs, by: lead, command: admission(brood, keys) }
    const weighed = brood.birds.map(
      ({ massMg }, order): Step => ({
        afterMs: afterMs + minutes(0.5),
        by: lead,
        command: { type: 'Weighed', v: 1, bird: bird(firstBird + order), massMg },
      }),
    )
    firstBird += brood.birds.length
    return [admitted, ...weighed]
  })
}

function admission(brood: Brood, keys: readonly PlanKey[]): Step['command'] {
  return {
    type: 'AdmitBrood',
    v: 1,
    label: brood.label,
    incubator: incubator(brood.incubator),
    quarantined: brood.quarantined,
    birds: brood.birds.map(({ band, plan: key }) => ({
      band,
      species: speciesCode(brood.species),
      plan: plan(keys.indexOf(key) + 1),
    })),
  }
}

/** What somebody reads off each incubator now and then, in tenths of a degree. */
const readingSteps = ({ incubators, playedMin, onShift: [lead] }: DemoRoom): readonly Step[] =>
  [3, playedMin / 2, playedMin - 3].flatMap((atMin, order) =>
    Array.from({ length: incubators }, (_, at) => ({
      afterMs: minutes(atMin),
      by: lead,
      command: {
        type: 'IncubatorRead' as const,
        v: 1 as const,
        incubator: incubator(at + 1),
        tempDeciC: 350 - 3 * at + order,
        humidityPercent: 50,
      },
    })),
  )

/** Everything but the rounds, earliest first. */
export const scriptedSteps = (room: DemoRoom, foundedAtMs: number): readonly Step[] =>
  [
    ...peopleSteps(room),
    ...mentorSteps(room),
    ...planSteps(room),
    ...incubatorSteps(room),
    ...shiftSteps(room),
    ...broodSteps(room),
    ...readingSteps(room),
    ...room.script(foundedAtMs),
  ].sort((a, b) => a.afterMs - b.afterMs)
