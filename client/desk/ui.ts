// What the desk itself remembers between two clicks: who it serves, what is open on it, the one form
// being filled in. Nothing of it is the room's; what somebody types stays in the form's own fields.

import { type Signal, signal } from '@preact/signals'
import type { BirdId, NestId, PersonId, PlanId, RequestId } from '../../shared/base/values.ts'
import type { NestGroup } from '../../shared/views/deskNests.ts'
import type { PlanDraft } from '../../shared/views/deskPlans.ts'

export const tabs = ['nests', 'people', 'plans', 'room', 'journal'] as const
export type Tab = (typeof tabs)[number]

export type NestFilter = NestGroup | 'all'

/** At most one form is open; opening another closes it. */
export type Form =
  | { readonly type: 'hold' | 'lift'; readonly nest: NestId; readonly bird: BirdId | null }
  | { readonly type: 'ask' | 'moveNest' | 'release'; readonly nest: NestId }
  | { readonly type: 'moveBird'; readonly bird: BirdId }
  | {
      readonly type: 'correct' | 'otherNest' | 'takeBack' | 'whichFed'
      readonly nest: NestId
      readonly no: number
    }
  | { readonly type: 'resolve'; readonly request: RequestId }
  | { readonly type: 'addPerson' | 'addIncubator' | 'admit' }
  | { readonly type: 'signOffs' | 'mentor' | 'remove'; readonly person: PersonId }
  /** `at` counts the drafts, so that a new one replaces what the fields held. */
  | {
      readonly type: 'plan'
      readonly replaces: PlanId | null
      readonly draft: PlanDraft
      readonly at: number
    }

/** A one-time code, shown once to whoever asked for it. */
export type ShownCode = {
  readonly person: PersonId
  readonly code: string
  readonly lifeMs: number
}

export type SigningIn = { readonly person: PersonId; readonly how: 'pin' | 'code' }

export type UiState = {
  readonly person: PersonId | null
  readonly signingIn: SigningIn | null
  readonly tab: Tab
  readonly nest: NestId | null
  readonly filter: NestFilter
  readonly form: Form | null
  readonly notice: string | null
  /** The press whose answer is awaited. */
  readonly asking: string | null
  readonly code: ShownCode | null
}

export type Ui = Signal<UiState>

export const createUi = (): Ui =>
  signal<UiState>({
    person: null,
    signingIn: null,
    tab: 'nests',
    nest: null,
    filter: 'all',
    form: null,
    notice: null,
    asking: null,
    code: null,
  })
