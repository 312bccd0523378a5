// What becomes of one process of the server: after how many effects on the world it dies, how its disk
// treats it, what its wall clock says. Set by the trouble of the world, asked at every call.

import type { DiskCall, DiskErrorCode } from '../support/fakeDisk.ts'
import type { Chance } from './chance.ts'
import type { Faults } from './faultClasses.ts'
import type { DiskFate } from './simulatedDisk.ts'

/** How long the medium takes when nothing is wrong with it. */
const flushMs = { least: 1, most: 5 } as const
const slowFlushMs = { least: 200, most: 6_000 } as const
/** Of the flushes in a slow spell. */
const slowShare = 0.4

export type DeathWay = 'kill' | 'powerLoss'
/** What a process does to the world outside: the only places where its death makes a difference. */
export type Effect = 'journal' | 'private' | 'snapshot' | 'send'

const effectOn = (path: string): Effect =>
  path.includes('private') ? 'private' : path.includes('snapshot') ? 'snapshot' : 'journal'

export type FateWorld = {
  readonly chance: Chance
  readonly faults: Faults
  /** The process has come to the effect at which it dies. */
  readonly die: (way: DeathWay) => void
  readonly failed: () => void
}

export class ServerFate implements DiskFate {
  readonly #world: FateWorld
  #isGone = false
  #death: { readonly way: DeathWay; readonly at: Effect | 'any'; effectsLeft: number } | null = null
  #failing: { code: DiskErrorCode; calls: readonly DiskCall[]; lasts: 'once' | 'on' } | null = null
  isSlow = false
  /** Calls that have not returned; while there are any, the room waits for its disk. */
  pending = 0

  constructor(world: FateWorld) {
    this.#world = world
  }

  get isGone(): boolean {
    return this.#isGone
  }

  end(): void {
    this.#isGone = true
  }

  /** It dies at that effect of this kind from now. */
  dieAfter(effects: number, at: Effect | 'any', way: DeathWay): void {
    this.#death = { way, at, effectsLeft: effects }
  }

  /** The next such call fails, or all of them until `recover`. */
  failNext(code: DiskErrorCode, calls: readonly DiskCall[], lasts: 'once' | 'on'): void {
    this.#failing = { code, calls, lasts }
  }

  /** It will not die where it was to die. */
  spare(): void {
    this.#death = null
  }

  recover(): void {
    this.#failing = null
    this.isSlow = false
  }

  /** One thing the process does to the world outside; false when it is no longer there to do it. */
  passes(effect: Effect): boolean {
    if (this.#isGone) return false
    if (this.#death === null) return true
    if (this.#death.at !== 'any' && this.#death.at !== effect) return true
    this.#death.effectsLeft -= 1
    if (this.#death.effectsLeft > 0) return true
    this.#world.die(this.#death.way)
    return false
  }

  lives(_call: DiskCall, path: string): boolean {
    return this.passes(effectOn(path))
  }

  delayMs(call: DiskCall): number {
    if (call !== 'sync' && call !== 'syncDir') return 0
    const { chance, faults } = this.#world
    if (this.isSlow && chance.happens(slowShare)) {
      faults.injected('slowFlush')
      return chance.between(slowFlushMs.least, slowFlushMs.most)
    }
    return chance.between(flushMs.least, flushMs.most)
  }

  failure(call: DiskCall, path: string): DiskErrorCode | null {
    const failing = this.#failing
    if (failing === null || !isOfTheRecord(path) || !failing.calls.includes(call)) return null
    if (failing.lasts === 'once') this.#failing = null
    this.#world.faults.injected('failingFlush')
    return failing.code
  }

  failed(_call: DiskCall, path: string): void {
    if (isOfTheRecord(path)) this.#world.failed()
  }
}

/** Files whose loss would lose what people said; snapshots are a cache. */
const isOfTheRecord = (path: string): boolean =>
  path.includes('.journal') || path.includes('private.ndjson')
