// The first frame on a link and its answer: whose screen this is, and what it missed. A hand or a desk
// must come with the token of its device. A wall needs none and is given none of what a token opens,
// whatever it brings: seeing the board is never locked out.

import { no, ok, type Result } from '../../shared/base/control.ts'
import type { Fault, FaultCode, HelloFrame, Welcome } from '../../shared/wire/frames.ts'
import { protocolVersion } from '../../shared/wire/limits.ts'
import { peopleOn } from './peopleOn.ts'
import type { RoomDoor, RoomToWatch } from './ports.ts'

/** Who is at the door: `device` is null on a screen that only looks. */
export type Guest = { readonly door: RoomDoor; readonly device: string | null }

export function recognise(
  rooms: ReadonlyMap<string, RoomDoor>,
  hello: HelloFrame,
): Result<Guest, Fault> {
  if (hello.protocol !== protocolVersion) return no(fault('protocolOther'))
  const door = rooms.get(hello.room)
  if (door === undefined) return no(fault('roomUnknown'))
  if (hello.screen === 'wall') return ok({ door, device: null })
  const device = hello.token === undefined ? null : door.doorkeeper.deviceOf(hello.token)
  return device === null ? no(fault('notPaired')) : ok({ door, device })
}

const fault = (code: FaultCode): Fault => ({ type: 'fault', code })

/** The tail for a screen of the same epoch that is not far behind, otherwise the whole board. */
export function welcome({ door, device }: Guest, hello: HelloFrame): Welcome {
  const { room } = door
  return {
    type: 'welcome',
    protocol: protocolVersion,
    epoch: room.epoch,
    nowMs: room.nowMs(),
    speed: room.speed,
    device: device === null ? null : { id: device, signedIn: peopleOn(door, device) },
    laneN: device === null ? null : room.laneN(device),
    names: room.names(),
    state: whatWasMissed(room, hello),
  }
}

function whatWasMissed(room: RoomToWatch, hello: HelloFrame): Welcome['state'] {
  const isKnown = hello.epoch === room.epoch && hello.version > 0
  const records = isKnown ? room.recordsAfter(hello.version) : null
  return records === null ? { type: 'board', ...room.durable } : { type: 'tail', records }
}
