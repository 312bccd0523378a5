// Both sides set up, measured and taken down: the rows of the table. Both files that are flushed to are
// in the same folder, and so on the same medium.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { assert } from '../../shared/base/control.ts'
import { House } from '../faults/house.ts'
import { makeTortureRoom, type TortureRoom } from '../faults/tortureRoom.ts'
import { measureFanout } from './fanout.ts'
import { floorSide } from './floorSide.ts'
import { type OurSide, ourSide } from './ourSide.ts'
import { type Spread, spreadOf } from './percentiles.ts'

export type FanoutOptions = {
  /** The folder of a finished build. */
  readonly build: string
  /** An empty folder. */
  readonly dir: string
  readonly screens: number
  readonly samples: number
}

export type Row = Spread & { readonly row: 'floor-ws-durable' | 'ours'; readonly screens: number }

export async function fanoutRows(options: FanoutOptions): Promise<readonly Row[]> {
  const { build, dir, screens, samples } = options
  const roomsDir = join(dir, 'rooms')
  const room = await makeTortureRoom(roomsDir)
  const house = await House.open({ build, roomsDir, speed: 1, logFile: join(dir, 'server.log') })
  try {
    const ours = await oursIn(house, room, screens)
    await ours.claim()
    const floor = await floorSide(join(dir, 'floor.lines'), screens, sizesLike(ours, room))
    const took = await measureFanout({ floor, ours }, samples)
    await Promise.all([floor.close(), ours.close()])
    return [
      { row: 'floor-ws-durable', screens, ...spreadOf(took.floor) },
      { row: 'ours', screens, ...spreadOf(took.ours) },
    ]
  } finally {
    await house.end()
  }
}

function oursIn(house: House, room: TortureRoom, screens: number): Promise<OurSide> {
  const [person] = room.people
  const [nest] = room.nests
  assert(person !== undefined && nest !== undefined, 'the room has people and nests')
  return ourSide({ origin: house.origin, room: room.id, nest, ...person }, screens)
}

/** As long as our own claim's line on disk and its record on the wire. */
function sizesLike(ours: OurSide, { journalDir }: TortureRoom) {
  const names = readdirSync(journalDir).filter((name) => name.endsWith('.journal'))
  const lines = names.flatMap((name) => readFileSync(join(journalDir, name), 'utf8').split('\n'))
  const line = lines.findLast((text) => text.includes('"NestClaimed"'))
  assert(line !== undefined, 'a claim stands in the journal')
  const frameBytes = Buffer.byteLength(JSON.stringify(ours.lastRecord()))
  return { lineBytes: Buffer.byteLength(line) + 1, frameBytes }
}
