// A device on a bench: a session on fakes, and the few frames a server would send it, so that a fact
// reads in a line or two. The board here is counted in births of incubators; rules are not what these
// tests are about.

import type { OutboxStore } from '../../client/session/ports.ts'
import { realBrain } from '../../client/session/realBrain.ts'
import { Session } from '../../client/session/session.ts'
import type { SessionSnapshot } from '../../client/session/sessionSnapshot.ts'
import type { IncubatorId, NestId, PersonId } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { evolve } from '../../shared/rules/evolve.ts'
import type { Answer, Fault, FaultCode, RecordFrame, Welcome } from '../../shared/wire/frames.ts'
import { protocolVersion } from '../../shared/wire/limits.ts'
import { FakeLink } from '../support/fakeLink.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers, settled } from '../support/fakeTimers.ts'

export const ana = 'p2' as PersonId
export const ben = 'p3' as PersonId
export const nestE = 'n1' as NestId

/** 2026-05-16 at 16:00 UTC, and the room's clock in every welcome unless a test says otherwise. */
export const roomMs = Date.UTC(2026, 4, 16, 16)

export const claim = { type: 'ClaimNest', v: 1, nest: nestE } as const
export const started = { type: 'StartFeed', v: 1, nest: nestE } as const
export const calledAway = { type: 'CalledAway', v: 1, nest: nestE, claimNo: 1 } as const
export const withdrawn = { type: 'Withdrawn', v: 1 } as const

/** The record that makes version `version` of the room. */
export function record(version: number): RecordFrame {
  const incubator = `i${version}` as IncubatorId
  return {
    type: 'record',
    version,
    atMs: roomMs,
    cause: { type: 'server' },
    by: null,
    events: [{ type: 'IncubatorAdded', v: 1, incubator, label: `${version}` }],
  }
}

/** The records after `from`, up to and with `to`. */
export const records = (from: number, to: number): readonly RecordFrame[] =>
  Array.from({ length: to - from }, (_, place) => record(from + place + 1))

/** The board of version `version`: what the server folds from all its records. */
export const boardAt = (version: number): Board =>
  records(0, version)
    .flatMap(({ events }) => events)
    .reduce(evolve, emptyBoard)

export const hashAt = (version: number): number => hashBoard(boardAt(version))

export function welcome(version: number, more: Partial<Welcome> = {}): Welcome {
  return {
    type: 'welcome',
    protocol: protocolVersion,
    epoch: 1,
    nowMs: roomMs,
    speed: 1,
    device: { id: 'd7', signedIn: [ana] },
    laneN: 0,
    names: {},
    state: { type: 'board', version, board: boardAt(version) },
    ...more,
  }
}

export const applied = (version: number): Answer => ({ status: 'applied', version })
export const refused: Answer = { status: 'rejected', why: { code: 'NotOnShift' } }
export const takenBack: Answer = { status: 'rejected', why: { code: 'Withdrawn' } }

export class Device {
  readonly link = new FakeLink()
  readonly complaints: unknown[] = []
  readonly seen: { epoch: number; version: number; by: string }[] = []
  readonly timers: FakeTimers
  readonly store: OutboxStore
  readonly session: Session

  constructor(more: { store?: OutboxStore; timers?: FakeTimers } = {}) {
    this.timers = more.timers ?? new FakeTimers()
    this.store = more.store ?? new FakeOutboxStore()
    this.session = new Session({
      link: this.link,
      timers: this.timers,
      chance: () => 0.5,
      complain: (what, error) => this.complaints.push([what, error]),
      brain: realBrain,
      room: 'meadow',
      screen: 'hand',
      store: this.store,
      seen: (seen) => this.seen.push(seen),
    })
  }

  get shown(): SessionSnapshot {
    return this.session.snapshot()
  }

  /** Started, connected and welcomed. */
  async live(version = 3, more: Partial<Welcome> = {}): Promise<this> {
    await this.session.start()
    return this.welcomed(version, more)
  }

  /** The attempt under way succeeds. */
  async welcomed(version = 3, more: Partial<Welcome> = {}): Promise<this> {
    this.link.open()
    this.link.say(welcome(version, more))
    await settled()
    return this
  }

  /** The link breaks, and the next attempt begins. */
  async cut(): Promise<void> {
    this.link.cut()
    await this.timers.pass(5_000)
  }

  async answer(n: number, answer: Answer, lane = 'd7'): Promise<void> {
    this.link.say({ type: 'answer', lane, n, answer })
    await settled()
  }

  /** Time goes by on a link that is alive. */
  async beats(count: number): Promise<void> {
    for (let beat = 0; beat < count; beat += 1) {
      await this.timers.pass(2_000)
      const { version } = this.shown
      this.link.say({ type: 'beat', nowMs: roomMs + 2_000 * (beat + 1), version, house: [] })
      await settled()
    }
  }

  /** What was sent, in the order of sending: the number and the kind. */
  sentLane(): readonly string[] {
    return this.link.commands().map(({ n, body }) => `${n} ${body.type}`)
  }
}

export async function fault(device: Device, code: FaultCode, more: Partial<Fault> = {}) {
  device.link.say({ type: 'fault', code, ...more })
  await settled()
}

/** A device that has sent the first of two reports. */
export async function twoReports(store = new FakeOutboxStore()): Promise<Device> {
  const device = await new Device({ store }).live()
  await device.session.report(ana, started)
  await device.session.report(ben, calledAway)
  return device
}
