// The shapes a demo room is written down in: its people, its broods, who feeds when, and what happens
// beside the rounds. Data only; steps.ts makes the commands of it and rehearsal.ts plays them.

import type { InstantMs, LengthMs, PersonId } from '../shared/base/values.ts'
import type { Command } from '../shared/board/commands.ts'
import type { Role, SignOff } from '../shared/board/constants.ts'
import type { PlanKey } from './plans.ts'

/** One person's order, so long after the room was founded. */
export type Step = { readonly afterMs: LengthMs; readonly by: PersonId; readonly command: Command }

/** Invented, with a PIN that anyone may know. */
export type DemoPerson = {
  readonly name: string
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  readonly pin: string
  /** Who answers for a trainee. */
  readonly mentor?: PersonId
}

export type DemoBird = {
  /** Null where the brood's birds are not marked. */
  readonly band: string | null
  readonly plan: PlanKey
  readonly massMg: number
}

export type Brood = {
  readonly label: string
  readonly incubator: number
  /** The English name; its code is that of the room's list. */
  readonly species: string
  readonly quarantined: boolean
  readonly birds: readonly DemoBird[]
}

/** Somebody who feeds, from and until so many minutes after the founding. */
export type Worker = {
  readonly person: PersonId
  readonly fromMin: number
  /** No visit is begun that would not be recorded by then; past the end leaves the last one in hand. */
  readonly untilMin: number
}

export type DemoRoom = {
  readonly id: string
  readonly title: string
  /** How long before somebody sees it the room was founded: long enough for a first feed of all. */
  readonly playedMin: number
  /** `p1` founds the room; the others are added by them, in this order. */
  readonly people: readonly [DemoPerson, ...DemoPerson[]]
  /** Who begins a shift; the first of them leads, and puts incubators and broods on the board. */
  readonly onShift: readonly [PersonId, ...PersonId[]]
  readonly incubators: number
  readonly broods: readonly Brood[]
  readonly workers: readonly Worker[]
  /** Holds, arrivals, breaks: whatever is no round. */
  readonly script: (foundedAtMs: InstantMs) => readonly Step[]
}
