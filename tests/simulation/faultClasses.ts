// The kinds of trouble a simulated world knows, and which of them a seed lets in. Each seed leaves some
// out: trouble that is always there hides what only shows without it.

import type { Chance } from './chance.ts'

export const faultClasses = [
  /** A frame is lost, and with it its link. */
  'drop',
  'delay',
  'duplicate',
  /** Nothing passes either way, or one way only. */
  'partition',
  'oneWay',
  /** One end is gone and the other is not told. */
  'halfOpen',
  /** The process dies between two effects on the world; what it wrote lives on in the machine. */
  'kill',
  /** The machine dies too, and what was not flushed may be torn, garbled or gone. */
  'powerLoss',
  /** The process ends in good order and another begins. */
  'restart',
  /** It dies while the room is being opened. */
  'crashInRecovery',
  'failingFlush',
  'fullDisk',
  'shortWrites',
  'slowFlush',
  /** A byte of an old record, or of a cache, is not what was written. */
  'damagedByte',
  'serverClockJump',
  'clientClockJump',
  /** A page is loaded anew, or its device switched off. */
  'reload',
  /** The server no longer knows who signed in on a device, and does not take what they bring. */
  'signInLost',
  /** The device's own database does not take or give something. */
  'failingStore',
] as const
export type FaultClass = (typeof faultClasses)[number]

export type FaultCounts = Record<FaultClass, number>

/** Two of three classes, on the average; some seeds have nearly all and some nearly none. */
const shareLeftIn = { least: 30, most: 100 } as const

export class Faults {
  readonly counts: FaultCounts
  readonly #isOn: ReadonlySet<FaultClass>
  #isOver = false

  constructor(chance: Chance) {
    const percent = chance.between(shareLeftIn.least, shareLeftIn.most)
    this.#isOn = new Set(faultClasses.filter(() => chance.below(100) < percent))
    this.counts = noFaults()
  }

  /** Whether this seed lets it in, and trouble has not come to its end. */
  isOn(fault: FaultClass): boolean {
    return !this.#isOver && this.#isOn.has(fault)
  }

  injected(fault: FaultClass): void {
    this.counts[fault] += 1
  }

  /** From now on nothing goes wrong. */
  end(): void {
    this.#isOver = true
  }

  begin(): void {
    this.#isOver = false
  }

  get total(): number {
    return faultClasses.reduce((sum, fault) => sum + this.counts[fault], 0)
  }
}

export function noFaults(): FaultCounts {
  const entries = faultClasses.map((fault) => [fault, 0] as const)
  return Object.fromEntries(entries) as FaultCounts
}
