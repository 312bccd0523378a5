// Whose clock decides what: the room's own decides everything that anybody holds; a device can place
// the start of a late record between what it had heard and its arrival; a wall clock names hours.

import type { Room } from '../../../server/room/room.ts'
import { clamp, minuteMs, secondMs } from '../../../shared/base/values.ts'
import type { EventOf, RoomEvent } from '../../../shared/board/events.ts'
import type { Happened } from '../reference.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import { commandId, type Seen } from '../witness.ts'

const toNestMs = 2 * minuteMs
const feedMs = (birds: number) =>
  clamp(2 * (30 * secondMs + birds * 90 * secondMs), 4 * minuteMs, 15 * minuteMs)

export class LeasesRunByTheRoomsClock implements Invariant {
  readonly number = 10
  readonly name = 'a lease is as long as its brood needs, by the room’s clock and no other'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before }) =>
      record.events.flatMap((event) => {
        if (event.type === 'NestClaimed') return wrongClaim(event, record.atMs)
        if (event.type === 'FeedStarted') return wrongStart(event, record.atMs, before)
        return []
      }),
    )
  }
}

function wrongClaim(event: EventOf<'NestClaimed'>, atMs: number): Sentences {
  const leaseMs = event.leaseEndsAtMs - atMs
  const rightMs = toNestMs + feedMs(event.birds.length)
  if (event.atMs !== atMs) return [`claim ${event.claimNo} is dated otherwise than its record`]
  if (leaseMs === rightMs) return nothingWrong
  return [`claim ${event.claimNo} has a lease of ${leaseMs} ms instead of ${rightMs}`]
}

/** A start noted a while ago makes what is left shorter, never longer. */
function wrongStart(
  event: EventOf<'FeedStarted'>,
  atMs: number,
  before: Happened['before'],
): Sentences {
  const hands = before.nests[event.nest]?.hands
  if (hands?.type !== 'held') return [`a feed was started on ${event.nest}, which nobody holds`]
  const isLong = event.leaseEndsAtMs > atMs + feedMs(hands.birds.length)
  const isOutside = event.startedAtMs > atMs || event.startedAtMs < hands.claimedAtMs
  return isLong || isOutside
    ? [`the start of claim ${event.claimNo} is out of bounds`]
    : nothingWrong
}

export class LateStartsStayInBounds implements Invariant {
  readonly number = 10
  readonly name = 'a late record begins between what its device had heard and its arrival'
  readonly #heardAtMs = new Map<string, number>()

  step({ witness }: Scene, { kept, happened }: Seen): Sentences {
    const dishonest = kept.flatMap(({ device, entry }) => {
      this.#heardAtMs.set(commandId(device, entry.n), entry.heardAtMs)
      const trulyMs = witness.heardAtMs.get(device) ?? 0
      return entry.heardAtMs > trulyMs ? [`${device} says it heard what nobody told it`] : []
    })
    return [...dishonest, ...happened.flatMap((one) => this.#outside(one))]
  }

  #outside({ record, before }: Happened): Sentences {
    const { cause } = record
    if (cause.type !== 'command') return nothingWrong
    const heardAtMs = this.#heardAtMs.get(commandId(cause.lane, cause.n))
    if (heardAtMs === undefined) return nothingWrong
    // A record put onto another nest keeps the start it had.
    if (record.events.some(({ type }) => type === 'RoundMoved')) return nothingWrong
    return record.events.flatMap((event) => {
      if (!isPlacedByDevice(event, before)) return []
      const leastMs = Math.min(heardAtMs, record.atMs)
      const isInside = event.startedAtMs >= leastMs && event.startedAtMs <= record.atMs
      return isInside ? [] : [`round ${event.no} begins outside what can be true`]
    })
  }
}

/** Neither said by a person nor known to the board under its number before. */
function isPlacedByDevice(
  event: RoomEvent,
  before: Happened['before'],
): event is EventOf<'RoundRecorded'> {
  if (event.type !== 'RoundRecorded' || event.standing === 'current' || event.isSaid) return false
  return !Object.values(before.nests).some(
    ({ hands, doubts, rounds }) =>
      (hands.type === 'held' && hands.claimNo === event.no) ||
      [...doubts, ...rounds].some(({ no }) => no === event.no),
  )
}

export class TheRoomsClockGoesOn implements Invariant {
  readonly number = 10
  readonly name = 'whatever the wall clock does, the room’s clock goes on as time does'
  #last: { readonly life: number; readonly roomMs: number; readonly worldMs: number } | null = null
  #lastAtMs = 0

  /** A server that comes back, by whatever wall clock, goes on from its last record at least. */
  opened({ reference }: Scene, room: Room): Sentences {
    const lastAtMs = reference.recordAt(reference.version)?.atMs ?? 0
    const behindMs = lastAtMs - room.nowMs()
    return behindMs > 0
      ? [`the room came back ${behindMs} ms before its last record`]
      : nothingWrong
  }

  step({ server, queue }: Scene, { beats, happened }: Seen): Sentences {
    const flaws: string[] = []
    for (const { record } of happened) {
      if (record.atMs < this.#lastAtMs) flaws.push(`record ${record.version} lies before its elder`)
      this.#lastAtMs = record.atMs
    }
    for (const { nowMs: roomMs } of beats) {
      const last = this.#last
      this.#last = { life: server.life, roomMs, worldMs: queue.nowMs }
      if (last === null || last.life !== server.life) continue
      const driftMs = roomMs - last.roomMs - (queue.nowMs - last.worldMs)
      if (Math.abs(driftMs) > 2) flaws.push(`the room's clock moved ${driftMs} ms beside time`)
    }
    return flaws
  }
}

/** The scribe looks at the wall clock whenever it wakes, which is at least every few seconds. */
const noticedWithinMs = 6 * secondMs
/** The machine's clock is always a little off. */
const civilNearMs = 2 * secondMs

export class WallJumpsChangeHoursOnly implements Invariant {
  readonly number = 10
  readonly name = 'a jump of the wall clock is an event, and changes labels and hours only'
  readonly isTimed = true
  #offSinceMs: number | null = null

  step({ server, queue }: Scene, { happened }: Seen): Sentences {
    const flaws = happened.flatMap(({ record, before, after }) => {
      const isJump = record.events.some(({ type }) => type === 'CivilOffsetChanged')
      const isOnly = before.nests === after.nests && before.birds === after.birds
      return isJump && !isOnly ? ['a jump of the wall clock changed more than hours'] : []
    })
    const { room } = server
    if (room === null || server.isWaitingForDisk) {
      this.#offSinceMs = null
      return flaws
    }
    const wallMs = queue.nowMs + server.wallOffsetMs
    const civilMs = room.nowMs() + room.durable.board.room.civilOffsetMs
    if (Math.abs(wallMs - civilMs) <= civilNearMs) this.#offSinceMs = null
    else this.#offSinceMs ??= queue.nowMs
    const offMs = this.#offSinceMs === null ? 0 : queue.nowMs - this.#offSinceMs
    return offMs > noticedWithinMs
      ? [...flaws, `civil time is ${wallMs - civilMs} ms behind the wall clock`]
      : flaws
  }
}
