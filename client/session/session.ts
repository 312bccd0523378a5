// A device that takes part in the room: watching it (`roomWatch`), the lane of what people noted here
// (`outbox`, `laneSender`), asks that somebody waits for, and signing in. Handhelds, desks, simulated
// people, torture and bench all speak to the room through this and nothing else. No DOM.

import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import { askMaxAgeMs } from '../../shared/board/constants.ts'
import type { ToOne, Welcome } from '../../shared/wire/frames.ts'
import { retryBackoff, waitMs } from './backoff.ts'
import { LaneSender } from './laneSender.ts'
import { OpenAsks } from './openAsks.ts'
import { type HeldNote, Outbox } from './outbox.ts'
import type {
  AskOutcome,
  CodeOutcome,
  RecordsOutcome,
  ReportAnswer,
  ReportOutcome,
  RetryOutcome,
  SignInOutcome,
} from './outcomes.ts'
import { type PendingState, pendingOf } from './pending.ts'
import type { Noted, OutboxStore } from './ports.ts'
import { Requests } from './requests.ts'
import { type RoomPorts, RoomWatch } from './roomWatch.ts'
import type { LateAnswer, SessionSnapshot } from './sessionSnapshot.ts'
import { Subscribers } from './subscribers.ts'
import type { Origin } from './timing.ts'

export type SessionPorts = RoomPorts & { readonly store: OutboxStore }

export type ReportWhen = {
  /** When the visit began, by `monoNowMs()`; left out where the device did not see it begin. */
  readonly startedMonoMs?: number
}

/** More than a person could look through; the oldest go. */
const lateAnswersMax = 8

export class Session {
  readonly #ports: SessionPorts
  readonly #room: RoomWatch
  readonly #outbox: Outbox
  readonly #asks: OpenAsks
  readonly #lane: LaneSender
  readonly #requests: Requests
  readonly #subscribers: Subscribers<SessionSnapshot>
  /** Who waits for a report to be answered, by its number. */
  readonly #reports = new Map<number, (answer: ReportAnswer) => void>()
  #unfolded: readonly (HeldNote & { readonly epoch: number; readonly version: number })[] = []
  #lateAnswers: readonly LateAnswer[] = []
  #isStopped = false

  constructor(ports: SessionPorts) {
    this.#ports = ports
    this.#outbox = new Outbox(ports.store, ports.timers, ports.complain)
    this.#asks = new OpenAsks(ports.timers)
    this.#subscribers = new Subscribers(ports.complain)
    this.#room = new RoomWatch(ports, {
      token: () => this.#outbox.token,
      welcomed: (welcome) => this.#welcomed(welcome),
      lost: () => this.#lost(),
      frame: (frame) => this.#take(frame),
    })
    this.#requests = new Requests(this.#room, ports.timers)
    this.#lane = this.#makeLane()
    this.#room.subscribe(() => this.#changed())
  }

  /** Reads what an earlier page life left, then connects, and stays connected until `stop`. */
  async start(): Promise<void> {
    this.#room.awaitWord()
    await this.#begin(1)
  }

  stop(): void {
    this.#isStopped = true
    this.#lane.lost()
    this.#room.stop()
    this.#asks.closeAll()
    this.#requests.end({ status: 'stopped' })
    for (const resolve of this.#reports.values()) resolve({ status: 'stopped' })
    this.#reports.clear()
  }

  /** Called at every change from now on; returns the function that ends it. */
  subscribe(tell: (snapshot: SessionSnapshot) => void): () => void {
    return this.#subscribers.add(tell)
  }

  snapshot(): SessionSnapshot {
    const room = this.#room.snapshot()
    return {
      ...room,
      canAsk: this.#canAsk(),
      signedIn: this.#room.signedIn,
      pending: pendingOf({
        waiting: this.#outbox.waiting(),
        unfolded: this.#unfolded,
        timers: this.#ports.timers,
        stateOf: (entry) => this.#stateOf(entry),
        roomAgoMs: (agoMs) => this.#room.roomAgoMs(agoMs),
      }),
      stuck: this.#outbox.stuck().map(({ entry }) => entry),
      lateAnswers: this.#lateAnswers,
      isStoreFailing: this.#outbox.isFailing,
    }
  }

  /** The room's clock, carried on from what was last heard; null before anything was. */
  roomNowMs(): InstantMs | null {
    return this.#room.roomNowMs()
  }

  /** This page life's monotonic clock, in which `startedMonoMs` is told. */
  monoNowMs(): number {
    return this.#ports.timers.nowMs()
  }

  /** Asks now or not at all: without a live link nothing is noted and nothing sent later. */
  async ask(by: PersonId, command: CommandOf<AskType>): Promise<AskOutcome> {
    if (this.#isStopped) return { status: 'stopped' }
    if (!this.#canAsk()) return { status: 'notLive' }
    if (this.#outbox.isFull()) return { status: 'full' }
    const { noted, origin } = this.#note({ kind: 'ask', by, body: command })
    const held = await this.#outbox.add(noted, origin)
    if (held === null) return { status: 'notKept' }
    const { n } = held.entry
    const leftMs = askMaxAgeMs - (this.monoNowMs() - origin.notedMonoMs)
    const outcome = this.#asks.open(n, leftMs, () => this.#lane.expired(n))
    if (this.#isStopped) this.#asks.closeAll()
    // The link may have gone while the ask was being kept.
    else if (!this.#canAsk()) this.#asks.lost()
    this.#lane.pump()
    this.#changed()
    return outcome
  }

  /** Keeps what a person did or saw on this device, and then sends it until it is answered. */
  async report(
    by: PersonId,
    command: CommandOf<ReportType>,
    when: ReportWhen = {},
  ): Promise<ReportOutcome> {
    if (this.#outbox.isFull()) return { status: 'full' }
    const { noted, origin } = this.#note({ kind: 'report', by, body: command }, when)
    return this.#keep(noted, origin)
  }

  /** Reports a stuck one anew, under a new number and as old as it is. */
  async retryStuck(id: string): Promise<RetryOutcome> {
    const stuck = this.#outbox.stuck().find(({ entry }) => entry.id === id)
    if (stuck === undefined) return { status: 'unknown' }
    if (stuck.entry.number === 'owed') return { status: 'numberOwed' }
    const { id: _, lane, n, why, number, ...noted } = stuck.entry
    return this.#keep(noted, stuck.origin, id)
  }

  /** A person has seen to it otherwise; only a person may say so. */
  async forgetStuck(id: string): Promise<void> {
    await this.#outbox.forgetStuck(id)
    this.#changed()
  }

  dismissLateAnswer(n: number): void {
    this.#lateAnswers = this.#lateAnswers.filter((late) => late.n !== n)
    this.#changed()
  }

  signIn(person: PersonId, pin: string): Promise<SignInOutcome> {
    return this.#requests.signing({ type: 'signIn', person, pin })
  }

  /** First sign-in: the one-time code, and the PIN the person chooses. */
  redeem(person: PersonId, secret: { code: string; pin: string }): Promise<SignInOutcome> {
    return this.#requests.signing({ type: 'redeem', person, ...secret })
  }

  signOut(person: PersonId): Promise<SignInOutcome> {
    return this.#requests.signing({ type: 'signOut', person })
  }

  /** A one-time code for somebody else's first sign-in, where a permit holder is signed in here. */
  issueCode(person: PersonId): Promise<CodeOutcome> {
    return this.#requests.code(person)
  }

  /** The last records the room holds, at most `recordsAskedMax` of them. */
  recentRecords(count: number): Promise<RecordsOutcome> {
    return this.#requests.records(count)
  }

  /**
   * Without its outbox a device knows neither its token nor what it owes: it would be greeted as a
   * stranger. So it does not speak before the outbox has been read, however often that takes.
   */
  async #begin(tries: number): Promise<void> {
    const isRead = await this.#outbox.read()
    if (this.#isStopped) return
    if (isRead) {
      this.#room.tell(this.#outbox.told)
      this.#room.start()
    } else {
      const { timers, chance } = this.#ports
      timers.after(waitMs(retryBackoff, tries, chance), () => void this.#begin(tries + 1))
    }
    this.#changed()
  }

  #makeLane(): LaneSender {
    return new LaneSender({
      outbox: this.#outbox,
      asks: this.#asks,
      timers: this.#ports.timers,
      chance: this.#ports.chance,
      room: this.#room,
      events: {
        changed: () => this.#changed(),
        applied: (note, version) => this.#applied(note, version),
        answeredLate: (note, version) => this.#answeredLate(note, version),
        reportAnswered: (n, answer) => this.#reportAnswered(n, answer),
      },
    })
  }

  #canAsk(): boolean {
    return this.#room.isLive && this.#lane.isReady
  }

  #note(what: Pick<Noted, 'kind' | 'by' | 'body'>, { startedMonoMs }: ReportWhen = {}) {
    const notedMonoMs = this.monoNowMs()
    const startMs = startedMonoMs === undefined ? null : Math.min(startedMonoMs, notedMonoMs)
    const notedWallMs = this.#ports.timers.wallMs()
    const startedWallMs = startMs === null ? null : notedWallMs - (notedMonoMs - startMs)
    const heardAtMs = this.#room.heardBefore(startMs ?? notedMonoMs) ?? this.#outbox.heardEarlierMs
    const noted: Noted = { ...what, notedWallMs, startedWallMs, heardAtMs }
    return { noted, origin: { notedMonoMs, startedMonoMs: startMs } }
  }

  async #keep(noted: Noted, origin: Origin, insteadOf?: string): Promise<ReportOutcome> {
    const held = await this.#outbox.add(noted, origin, insteadOf)
    if (held === null) {
      this.#changed()
      return { status: 'notKept' }
    }
    const { n } = held.entry
    const answered = new Promise<ReportAnswer>((resolve) => {
      if (this.#isStopped) resolve({ status: 'stopped' })
      else this.#reports.set(n, resolve)
    })
    this.#lane.pump()
    this.#changed()
    return { status: 'kept', n, answered }
  }

  #stateOf({ kind, n }: { readonly kind: Noted['kind']; readonly n: number }): PendingState {
    if (kind === 'ask' && !this.#asks.isOpen(n)) return 'withdrawn'
    return n === this.#lane.inFlight || this.#asks.isSent(n) ? 'sent' : 'waiting'
  }

  #welcomed({ device, laneN }: Welcome): void {
    if (device !== null && laneN !== null) void this.#lane.welcomed(device.id, laneN)
  }

  #lost(): void {
    this.#lane.lost()
    this.#requests.end({ status: 'notLive' })
  }

  #take(frame: ToOne): void {
    const isRequested = this.#requests.heard(frame)
    if (frame.type === 'answer') this.#lane.answered(frame)
    else if (frame.type === 'signedIn') this.#lane.pump()
    else if (frame.type === 'fault' && !isRequested) this.#lane.faulted(frame)
  }

  #applied(note: HeldNote, version: number): void {
    const { epoch } = this.#room
    this.#unfolded = [...this.#unfolded, { ...note, epoch, version }]
  }

  #answeredLate({ entry }: HeldNote, version: number): void {
    const late = { n: entry.n, by: entry.by, body: entry.body, version }
    this.#lateAnswers = [...this.#lateAnswers, late].slice(-lateAnswersMax)
  }

  #reportAnswered(n: number, answer: ReportAnswer): void {
    this.#reports.get(n)?.(answer)
    this.#reports.delete(n)
  }

  #changed(): void {
    const { epoch, version } = this.#room
    this.#unfolded = this.#unfolded.filter((one) => one.epoch === epoch && one.version > version)
    this.#subscribers.tellAll(this.snapshot())
  }
}
