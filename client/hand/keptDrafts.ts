// What was tapped at a visit and not yet saved, kept with the tab: a page that is opened anew, by a thumb or
// by a newer server, still says that red refused. A claim's number means another visit once the room was
// restored from a copy, so drafts of another life of the room are let go.

import type { Draft } from './draft.ts'

export type Drafts = Readonly<Record<string, Draft>>

/** As a browser's sessionStorage, which may be switched off and then throws at every touch. */
export type DraftStore = Pick<Storage, 'getItem' | 'setItem'>

/** The life of one room: its claims are numbered once. */
export type RoomLife = { readonly room: string; readonly season: string; readonly epoch: number }
/** Counts up with the shape of a draft: a page of another shape begins with none. */
const shape = 1

const nameOf = ({ room, season, epoch }: RoomLife): string =>
  `broodboard drafts ${shape} ${room} ${season} ${epoch}`

export function readDrafts(store: DraftStore, life: RoomLife): Drafts {
  try {
    return JSON.parse(store.getItem(nameOf(life)) ?? '{}') as Drafts
  } catch {
    // Storage that is switched off, or a text that is not ours: nothing was tapped.
    return {}
  }
}

/** 'notKept' where the device has no storage for them: they are then forgotten with the page. */
export function keepDrafts(store: DraftStore, life: RoomLife, drafts: Drafts): 'kept' | 'notKept' {
  try {
    store.setItem(nameOf(life), JSON.stringify(drafts))
    return 'kept'
  } catch {
    return 'notKept'
  }
}
