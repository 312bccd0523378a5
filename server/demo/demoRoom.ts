// The small demo room on disk: its morning played from an hour ago, command by command, through the
// same room everything else goes through. Called once, when the rooms folder holds no room.

import { founder, others } from '../../demo-data/people.ts'
import { foundedAgoMin, type Step, smallRoomSteps } from '../../demo-data/smallRoom.ts'
import { minuteMs, type PersonId } from '../../shared/base/values.ts'
import { foundRoom, type Ground, type RoomWish, steppedClock } from '../config/foundRoom.ts'
import type { Room } from '../room/room.ts'
import type { RoomSecrets } from '../secrets/roomSecrets.ts'

export const demoRoomId = 'pennywren'

const wish: Omit<RoomWish, 'zone'> = {
  room: demoRoomId,
  title: 'Pennywren Nursery',
  // Open around the clock, so that the demo lives whenever somebody looks at it.
  opensMinute: 0,
  closesMinute: 24 * 60,
  first: founder,
}

/** Every sign-in of the demo, in the order of the people's ids. */
export const demoSignIns = [founder, ...others].map(({ name, role, pin }, at) => {
  return { person: `p${at + 1}` as PersonId, name, role, pin }
})

/** Ends with the room in its place, its last record a moment ago. */
export async function makeDemoRoom(
  ground: Ground,
  secrets: RoomSecrets,
  zone: string,
): Promise<void> {
  const foundedAtMs = ground.clockSource.wallMs() - foundedAgoMin * minuteMs
  const clock = steppedClock(foundedAtMs)
  await foundRoom({ ...ground, clockSource: clock.source }, { ...wish, zone }, async (room) => {
    // A device of its own, so that its lane is nobody else's.
    const paired = await secrets.pairDevice()
    if (paired === null) throw new Error('the demo room has no place for its own device')
    const steps = smallRoomSteps(foundedAtMs)
    for (const [at, step] of steps.entries()) {
      clock.goTo(foundedAtMs + step.atMin * minuteMs)
      await play(room, step, { device: paired.device, n: at + 1 })
    }
    for (const { person, pin } of demoSignIns) await secrets.setPin(person, pin)
  })
}

/** Throws on a step that is not applied: then the script and the rules no longer fit each other. */
async function play(
  room: Room,
  { atMin, by, command }: Step,
  { device, n }: { readonly device: string; readonly n: number },
): Promise<void> {
  const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
  const outcome = await room.take({ lane: device, n, by, device, timing, body: command })
  if ('status' in outcome && outcome.status === 'applied' && !outcome.isSetAside) return
  throw new Error(`the demo's ${command.type} at ${atMin} min came to ${JSON.stringify(outcome)}`)
}
