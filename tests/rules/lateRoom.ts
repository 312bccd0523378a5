// The small room with one late nest and nobody busy: F is due at 09:10, everything else was fed at 09:05
// and is on nobody's list before 09:25. Who is asked first is whoever has been idle longest, leads last:
// Ana, Ben, Vic, Tom (all since 06:30), then Iris, who has fed, then Lena and Pia, who lead.

import type { PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Given } from '../support/given.ts'
import { offShift, round } from '../support/roomBuilder.ts'
import {
  birdsD,
  birdsE,
  everyone,
  g1,
  iris,
  mSyringe,
  nestD,
  nestE,
  nestG,
  nestM,
  room,
} from './smallRoom.ts'

const fedAt0905 = { by: iris, at: '09:05' } as const
export const othersFed: readonly RoomEvent[] = [
  round({ nest: nestE, no: 6, birds: birdsE, ...fedAt0905 }),
  round({ nest: nestG, no: 7, birds: [g1], ...fedAt0905 }),
  round({ nest: nestD, no: 8, birds: birdsD, ...fedAt0905 }),
  round({ nest: nestM, no: 9, birds: [mSyringe], ...fedAt0905 }),
]

export const lateRoom = room.and(...othersFed)

/** The same room with only these people on shift. */
export const lateRoomOf = (...people: readonly PersonId[]): Given =>
  lateRoom.and(...everyone.filter((id) => !people.includes(id)).map((id) => offShift(id, '09:06')))
