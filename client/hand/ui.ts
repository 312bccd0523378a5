// What the handheld itself remembers between two taps: who it is serving, which page, drafts not yet
// saved, and the last thing to tell. Nothing of it is the room's; a reload loses all of it but the drafts.

import { type Signal, signal } from '@preact/signals'
import type { NestId, PersonId } from '../../shared/base/values.ts'
import type { fluidRoutes } from '../../shared/board/constants.ts'
import type { Place } from '../attention/place.ts'
import { type Draft, emptyDraft } from './draft.ts'
import { home, type Page } from './page.ts'

export type Notice = { readonly tone: 'plain' | 'refused'; readonly text: string }

/** Figures typed on the pad; a first sign-in types three of them in turn. */
export type PinPad = {
  readonly digits: string
  readonly code: string | null
  readonly pin: string | null
}
export const emptyPad: PinPad = { digits: '', code: null, pin: null }

/** The box being put on the board. */
export type BoxDraft = {
  readonly howMany: number | null
  readonly size: 'small' | 'medium' | 'large' | 'unknown' | null
  readonly incubator: string | null
}
export const emptyBox: BoxDraft = { howMany: null, size: null, incubator: null }

/** A hold being set or lifted; its reason is chosen before its time. */
export type HoldDraft = { readonly reason: string | null }

/** Fluids being recorded; the amount is what was typed, and begins with nothing. */
export type FluidsDraft = {
  readonly fluid: string | null
  readonly route: (typeof fluidRoutes)[number] | null
  readonly warmth: 'warmed' | 'notWarmed' | null
  readonly site: string | null
  readonly figures: string
}
export const emptyFluids: FluidsDraft = {
  fluid: null,
  route: null,
  warmth: null,
  site: null,
  figures: '',
}

export type UiState = {
  readonly person: PersonId | null
  readonly page: Page
  readonly drafts: Readonly<Record<string, Draft>>
  readonly pad: PinPad
  readonly box: BoxDraft
  readonly hold: HoldDraft
  readonly fluids: FluidsDraft
  /** Where this screen stands; kept on the device by whoever opened it. */
  readonly place: Place
  /** Birds picked on a page that asks which. */
  readonly picked: readonly string[]
  /** What is being typed, on the one page where anything is. */
  readonly words: string
  readonly notice: Notice | null
  /** Something was asked and its answer is awaited. */
  readonly isAsking: boolean
}

export type Ui = Signal<UiState>

export const createUi = (place: Place = 'nursery'): Ui =>
  signal<UiState>({
    person: null,
    page: home,
    drafts: {},
    pad: emptyPad,
    box: emptyBox,
    hold: { reason: null },
    fluids: emptyFluids,
    place,
    picked: [],
    words: '',
    notice: null,
    isAsking: false,
  })

/** Drafts kept for claims that were never saved; more than one tablet's people can have open. */
const draftsMax = 20

export const claimKey = (claimNo: number): string => `claim ${claimNo}`
export const saidKey = (nest: NestId): string => `said ${nest}`

export const draftOf = (state: UiState, key: string): Draft => state.drafts[key] ?? emptyDraft

/** The state with one draft changed; the oldest is forgotten when there are too many. */
export function withDraft(state: UiState, key: string, draft: Draft): UiState {
  const others = Object.entries(state.drafts).filter(([name]) => name !== key)
  return { ...state, drafts: Object.fromEntries([...others, [key, draft]].slice(-draftsMax)) }
}

export function withoutDraft(state: UiState, key: string): UiState {
  const { [key]: _, ...drafts } = state.drafts
  return { ...state, drafts }
}

/** A page begins with nothing picked and nothing said. */
export const onPage = (state: UiState, page: Page): UiState => ({
  ...state,
  page,
  notice: null,
  picked: [],
  words: '',
  pad: emptyPad,
  box: emptyBox,
  hold: { reason: null },
  // Its two pages are one record.
  fluids: page.type === 'fluidsAmount' || page.type === 'fluids' ? state.fluids : emptyFluids,
})
