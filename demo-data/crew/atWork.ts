// What a visit and a chore may ask of the person who makes them; feeder.ts is that person.

import type { InstantMs, LengthMs, NestId, PersonId } from '../../shared/base/values.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { Held } from '../../shared/board/state.ts'
import type { Draw } from './chance.ts'
import type { Crops } from './crops.ts'
import type { Habit } from './habits.ts'
import type { Handset } from './handset.ts'

export interface AtWork {
  readonly person: PersonId
  readonly handset: Handset
  readonly crops: Crops
  readonly draw: Draw
  readonly habit: Habit
  /** Without a link: the board on the screen stands still, and what is done is noted for later. */
  readonly isOut: boolean
  nowMs(): InstantMs
  /** So long on the room's clock. Returns at once when the day is over. */
  wait(roomMs: LengthMs): Promise<void>
  /** Out of the building with the handheld in a pocket, and back after a while. */
  walkOut(roomMs: LengthMs): Promise<void>
  /** Keeps in mind what was not recorded. */
  remember(nest: NestId, held: Held, answers: readonly Answer[]): void
  remembered(no: number): readonly Answer[] | null
}
