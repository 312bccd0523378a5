// When to pull the plug: at any time, or the moment a certain thing passes a link, which is when a
// program that acknowledges too early, or writes too late, would be caught.

import type { Choose } from '../support/fakeMedium.ts'
import type { Passing } from './listeningLink.ts'

/**
 * `afterSend`: a command has just left a device. `afterRecord`: the first screen has just been shown a
 * record. `afterAnswer`: somebody has just been told. `underLoad`: everybody sends at once, so that a
 * flush is under way. `whileStarting`: as `anyTime`, and the next start is killed before it serves.
 */
export const moments = [
  'anyTime',
  'afterSend',
  'afterRecord',
  'afterAnswer',
  'underLoad',
  'whileStarting',
] as const
export type Moment = (typeof moments)[number]

/** A moment that has not come by then never will: the room has fallen silent. */
const waitMaxMs = 3_000
const anyTimeMostMs = 250
const underLoadMostMs = 16
/** How many such things may pass first. */
const passesMost = 20
/** After a send: from the bytes still being on their way to the flush being under way, and after. */
const sendDelaysMs = [0, 0, 1, 2, 4, 8] as const

export class KillMoment {
  readonly moment: Moment
  readonly #strike: () => void
  readonly #delayMs: number
  #passesLeft: number
  #timer: ReturnType<typeof setTimeout> | null = null
  #isOver = false

  /** `strike` is called once, at the very moment. */
  constructor(moment: Moment, choose: Choose, strike: () => void) {
    this.moment = moment
    this.#strike = strike
    this.#passesLeft = 1 + choose(passesMost)
    this.#delayMs = sendDelaysMs[choose(sendDelaysMs.length)] ?? 0
    this.#at(firstWaitMs(moment, choose))
  }

  /** Told of everything that passes any link, while it passes. */
  heard(passing: Passing): void {
    if (this.#isOver || !isAwaited(this.moment, passing)) return
    this.#passesLeft -= 1
    if (this.#passesLeft > 0) return
    if (this.moment === 'afterSend' && this.#delayMs > 0) this.#at(this.#delayMs)
    else this.#now()
  }

  #at(delayMs: number): void {
    if (this.#timer !== null) clearTimeout(this.#timer)
    this.#timer = setTimeout(() => this.#now(), delayMs)
  }

  #now(): void {
    if (this.#isOver) return
    this.#isOver = true
    if (this.#timer !== null) clearTimeout(this.#timer)
    this.#strike()
  }
}

function firstWaitMs(moment: Moment, choose: Choose): number {
  if (moment === 'anyTime' || moment === 'whileStarting') return choose(anyTimeMostMs)
  return moment === 'underLoad' ? choose(underLoadMostMs) : waitMaxMs
}

function isAwaited(moment: Moment, { way, frame }: Passing): boolean {
  if (moment === 'afterSend') return way === 'out' && frame.type === 'command'
  if (moment === 'afterRecord') return way === 'in' && frame.type === 'record'
  return moment === 'afterAnswer' && way === 'in' && frame.type === 'answer'
}
