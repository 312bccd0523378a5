// The six who work the room, as one: sign in, work, rest, come back, hand in what is left.

import type { Choose } from '../support/fakeMedium.ts'
import { Feeder, type FeederParts } from './feeder.ts'
import { until } from './until.ts'

/** Sessions find a restarted server within their longest wait between attempts, and some. */
const backMaxMs = 20_000
/** Outboxes of a dozen entries, six at once, on a machine that does other things too. */
const drainMaxMs = 20_000
/** A kill closes every socket at once, and what had been sent before it is still read first. */
const closeMaxMs = 5_000
/** One page in so many is reloaded while the server is away. */
const reloadOneIn = 4
const hurriedReports = 4

export class Crew {
  readonly #feeders: readonly Feeder[]

  constructor(parts: readonly FeederParts[]) {
    this.#feeders = parts.map((one) => new Feeder(one))
  }

  /** False when somebody cannot get in. */
  async begin(): Promise<boolean> {
    for (const feeder of this.#feeders) await feeder.start()
    if (!(await this.areBack())) return false
    // One after the other: the server works out one PIN at a time.
    for (const feeder of this.#feeders) if (!(await feeder.signIn())) return false
    return true
  }

  /** Whether all of them are live again, by themselves and in time. */
  areBack(): Promise<boolean> {
    return until(() => this.#feeders.every((feeder) => feeder.isLive), backMaxMs)
  }

  /** Whether nothing a dead server has sent is still on its way. */
  areCutOff(): Promise<boolean> {
    return until(() => this.#feeders.every((feeder) => !feeder.isLinked), closeMaxMs)
  }

  work(): void {
    for (const feeder of this.#feeders) feeder.work()
  }

  rest(): void {
    for (const feeder of this.#feeders) feeder.rest()
  }

  /** Everybody reports several things in one breath; not waited for, since a kill is to come meanwhile. */
  hurry(): void {
    for (const feeder of this.#feeders) void feeder.hurry(hurriedReports)
  }

  async reloadSome(choose: Choose): Promise<void> {
    for (const feeder of this.#feeders) if (choose(reloadOneIn) === 0) await feeder.reload()
  }

  /** Whether everything noted has its answer. */
  areDrained(): Promise<boolean> {
    return until(() => this.#feeders.every((feeder) => feeder.isDrained), drainMaxMs)
  }

  /** Whether every screen has come as far as this. */
  areAt(version: number): Promise<boolean> {
    return until(() => this.#feeders.every((feeder) => feeder.version >= version), drainMaxMs)
  }

  stop(): void {
    for (const feeder of this.#feeders) feeder.stop()
  }

  get feeders(): readonly Feeder[] {
    return this.#feeders
  }
}
