// What the witness and the invariants see of a device, handheld or wall.

import type { RoomWatch } from '../../client/session/roomWatch.ts'

/** Whatever watches the room: a page with its board and its word about being live. */
export interface Screen {
  readonly name: string
  /** Null while it is switched off. */
  readonly watch: Pick<RoomWatch, 'snapshot'> | null
  /** When the present page was begun. */
  readonly loadedAtMs: number
  /** Counts its pages. */
  readonly life: number
}
