// A real room with the real rules on a disk in memory, its clock and timers moved by the test. One
// process after the other can serve it: closed in good order, killed, or cut from its power.

import type { LogFields } from '../../../server/log/log.ts'
import { createRoom, openRoom, type RoomPlace } from '../../../server/room/openRoom.ts'
import type { Room } from '../../../server/room/room.ts'
import type { PrivateText } from '../../../server/scribe/ports.ts'
import { minuteMs, type PersonId } from '../../../shared/base/values.ts'
import type { Command } from '../../../shared/board/commands.ts'
import type { RoomEvent } from '../../../shared/board/events.ts'
import type { PrivateRef } from '../../../shared/board/parts.ts'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { FakeTimers, settled } from '../../support/fakeTimers.ts'
import { fixedChance } from '../../support/fixedChance.ts'
import {
  birdOf,
  clock,
  incubator,
  incubatorOf,
  nest,
  nestOf,
  personOf,
  planEvery,
  planOf,
  roomZone,
} from '../../support/roomBuilder.ts'
import { seededChoose } from '../../support/seededChoose.ts'
import { keptLog, type Line } from '../quietLog.ts'

export const roomDir = '/rooms/meadow/2026'
/** Every bird has just come, and is due from now on; nobody is late. */
export const startMs = clock('09:00')

export const wishes = {
  ...{ season: '2026', title: 'Meadow Lane nursery', zone: roomZone },
  ...{ opensMinute: 6 * 60, closesMinute: 20 * 60 },
}

const people = ['Mara', 'Ana', 'Ben', 'Iris'] as const

/** Four people on shift, four nests of three birds, every half hour. */
function stock(keep: (text: PrivateText) => PrivateRef): readonly RoomEvent[] {
  const plan = { technique: 'gapeSyringe', earlyPercent: 10 } as const
  return [
    incubator(incubatorOf(1), '1'),
    planEvery(planOf(1), 30, plan),
    ...people.flatMap((name, at) => newcomer(personOf(at + 1), keep({ name }))),
    ...[1, 2, 3, 4].map((n) =>
      nest(nestOf(n), {
        label: String.fromCharCode(64 + n),
        ...{ incubator: incubatorOf(1), at: '09:00' },
        birds: [1, 2, 3].map((b) => ({ id: birdOf(3 * (n - 1) + b), plan: planOf(1) })),
      }),
    ),
  ]
}

const newcomer = (person: PersonId, name: PrivateRef): readonly RoomEvent[] => [
  {
    ...{ type: 'PersonAdded', v: 1, person, name, signOffs: ['gapeSyringe', 'fluids'] },
    role: person === personOf(1) ? 'permitHolder' : 'volunteer',
  },
  { type: 'ShiftBegun', v: 1, person, atMs: startMs },
]

export class RoomOnDisk {
  disk = new FakeDisk({ choose: seededChoose(7) })
  readonly timers = new FakeTimers(0, startMs)
  readonly lines: readonly Line[]
  readonly #log
  readonly #lastN = new Map<string, number>()

  constructor() {
    const { log, lines } = keptLog()
    this.#log = log
    this.lines = lines
  }

  place(more: Partial<RoomPlace> = {}): RoomPlace {
    const { timers } = this
    return {
      ...{ disk: this.disk, dir: roomDir, room: 'meadow', timers, log: this.#log, speed: 1 },
      clockSource: { wallMs: () => timers.wallMs(), monotonicMs: () => timers.nowMs() },
      chance: fixedChance(11),
      ...more,
    }
  }

  /** A new room with people and broods in it. */
  async founded(more: Partial<RoomPlace> = {}): Promise<Room> {
    const room = await createRoom(this.place(more), wishes)
    await room.record(({ keep }) => stock(keep))
    return room
  }

  open(more: Partial<RoomPlace> = {}): Promise<Room> {
    return openRoom(this.place(more))
  }

  /** The process is gone at once; whatever it had written is still there. */
  kill(): void {
    this.disk = this.disk.kill()
  }

  /** The power is gone: only what was flushed is sure to be there. */
  cutPower(): void {
    this.disk = this.disk.crash()
  }

  /** What the log was told about, without the words. */
  get logged(): readonly LogFields[] {
    return this.lines.map(({ fields }) => fields)
  }

  /** The next command of this person's device, answered. */
  say(room: Room, person: number, body: Command) {
    const lane = `d${person}`
    const n = (this.#lastN.get(lane) ?? 0) + 1
    this.#lastN.set(lane, n)
    return this.sayAs(room, { lane, n }, body)
  }

  sayAs(room: Room, { lane, n }: { lane: string; n: number }, body: Command) {
    const by = personOf(Number(lane.slice(1)))
    const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
    return room.take({ lane, n, by, device: lane, timing, body })
  }
}

/** Time goes by on the machine, with all its timers. */
export async function pass(house: RoomOnDisk, minutes: number): Promise<void> {
  await house.timers.pass(minutes * minuteMs)
  await settled()
}

export const claim = (n: number): Command => ({ type: 'ClaimNest', v: 1, nest: nestOf(n) })
export const weigh = (n: number, massMg = 12_000): Command => ({
  ...{ type: 'Weighed', v: 1, bird: birdOf(n), massMg },
})
export const feed = (n: number, claimNo?: number): Command => ({
  ...{ type: 'AnswerBirds', v: 1, nest: nestOf(n) },
  answers: [1, 2, 3].map((b) => ({ bird: birdOf(3 * (n - 1) + b), outcome: 'ate' as const })),
  ...(claimNo === undefined ? {} : { claimNo }),
})

/** The types of the events in these records, in order. */
export const typesIn = (records: readonly RecordFrame[] | null): readonly string[] =>
  (records ?? []).flatMap(({ events }) => events.map(({ type }) => type))

/** The same without what the late nests of a long pause lead to: who is asked, and what the lead is told. */
export const withoutAsking = (types: readonly string[]): readonly string[] =>
  types.filter((type) => !['OfferMade', 'OfferEnded', 'LeadTold'].includes(type))
