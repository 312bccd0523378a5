// A demo room on disk: played from a while ago up to now, command by command, through the same room that
// everything else goes through. Which demo rooms there are, demo-data says.

import type { DemoRoom, Step } from '../../demo-data/demoRoom.ts'
import { person } from '../../demo-data/ids.ts'
import { played } from '../../demo-data/played.ts'
import { demoHours } from '../../demo-data/rehearsal.ts'
import { type LengthMs, minuteMs } from '../../shared/base/values.ts'
import { foundRoom, type Ground, steppedClock } from '../config/foundRoom.ts'
import type { Room } from '../room/room.ts'
import type { RoomSecrets } from '../secrets/roomSecrets.ts'

/** Ends with the room in its place, its last record a minute or two ago. */
export async function makeDemoRoom(
  demo: DemoRoom,
  ground: Ground,
  { secrets, zone }: { readonly secrets: RoomSecrets; readonly zone: string },
): Promise<void> {
  // On the minute, because nests are ranked by it: then the room is the same whenever it is made.
  const thisMinute = Math.floor(ground.clockSource.wallMs() / minuteMs)
  const foundedAtMs = (thisMinute - demo.playedMin) * minuteMs
  const clock = steppedClock(foundedAtMs)
  const { id: room, title, people } = demo
  const wish = { room, title, zone, ...demoHours, first: people[0] }
  await foundRoom({ ...ground, clockSource: clock.source }, wish, async (made) => {
    // A device of its own, so that its lane is nobody else's.
    const paired = await secrets.pairDevice()
    if (paired === null) throw new Error('the demo room has no place for its own device')
    const { steps } = played(demo, { foundedAtMs, zone })
    const playAll = async () => {
      for (const [afterMs, moment] of moments(steps)) {
        clock.goTo(foundedAtMs + afterMs)
        await Promise.all(moment.map((step) => play(made, step, paired.device)))
      }
    }
    const pins = people.map(({ pin }, at) => secrets.setPin(person(at + 1), pin))
    await Promise.all([playAll(), ...pins])
  })
}

/** A step and its number in the device's lane. */
type Numbered = Step & { readonly n: number }

/** The steps of each moment together, in order of time: they share a flush. */
function moments(steps: readonly Step[]): ReadonlyMap<LengthMs, readonly Numbered[]> {
  const byMoment = new Map<LengthMs, Numbered[]>()
  for (const [at, step] of steps.entries()) {
    const moment = byMoment.get(step.afterMs) ?? []
    byMoment.set(step.afterMs, [...moment, { ...step, n: at + 1 }])
  }
  return byMoment
}

/** Throws on a step that is not applied: then the script and the rules no longer fit each other. */
async function play(room: Room, step: Numbered, device: string): Promise<void> {
  const { afterMs, by, command, n } = step
  const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
  const outcome = await room.take({ lane: device, n, by, device, timing, body: command })
  if ('status' in outcome && outcome.status === 'applied' && !outcome.isSetAside) return
  const what = `${command.type}, ${afterMs} ms after the founding`
  throw new Error(`the demo's ${what}, came to ${JSON.stringify(outcome)}`)
}
