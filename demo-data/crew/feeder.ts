// One invented person at work: chores first, then the nest that comes next, then a breath. Lives on the
// room's time, as fast as the room's clock runs.

import {
  type InstantMs,
  minuteMs,
  type NestId,
  type PersonId,
  secondMs,
} from '../../shared/base/values.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { Held } from '../../shared/board/state.ts'
import { claimOf } from '../../shared/rules/decision.ts'
import type { AtWork } from './atWork.ts'
import type { Draw } from './chance.ts'
import { doChore } from './chores.ts'
import type { Crops } from './crops.ts'
import { type Habit, habitOneIn } from './habits.ts'
import type { Handset } from './handset.ts'
import { claimNext, visit } from './visit.ts'

export type FeederParts = {
  readonly person: PersonId
  readonly handset: Handset
  readonly crops: Crops
  readonly draw: Draw
  readonly habit: Habit
  readonly speed: number
}

/** What somebody still knows of visits they did not record; older ones they have forgotten. */
const rememberedMax = 8

export class Feeder implements AtWork {
  readonly person: PersonId
  readonly handset: Handset
  readonly crops: Crops
  readonly draw: Draw
  readonly habit: Habit
  readonly #speed: number
  readonly #stopping = new AbortController()
  readonly #memory: { readonly no: number; readonly answers: readonly Answer[] }[] = []
  /** Without a link: the board on the screen stands still, and what is done is noted for later. */
  isOut = false
  isWalkedOut = false
  #isDone = true
  /** The claim visited last: a screen without a link shows it in hand long after. */
  #visitedNo = 0

  constructor(parts: FeederParts) {
    this.person = parts.person
    this.handset = parts.handset
    this.crops = parts.crops
    this.draw = parts.draw
    this.habit = parts.habit
    this.#speed = parts.speed
  }

  nowMs(): InstantMs {
    return this.handset.see()?.nowMs ?? 0
  }

  /** So long on the room's clock. Returns at once when the day is over. */
  wait(roomMs: number): Promise<void> {
    if (this.#stopping.signal.aborted) return Promise.resolve()
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(timer)
        this.#stopping.signal.removeEventListener('abort', done)
        resolve()
      }
      const timer = setTimeout(done, roomMs / this.#speed)
      this.#stopping.signal.addEventListener('abort', done)
    })
  }

  remember(_nest: NestId, held: Held, answers: readonly Answer[]): void {
    this.#memory.push({ no: held.claimNo, answers })
    if (this.#memory.length > rememberedMax) this.#memory.shift()
  }

  remembered(no: number): readonly Answer[] | null {
    return this.#memory.find((one) => one.no === no)?.answers ?? null
  }

  /** Out of the building with the handheld in a pocket, and back after a while. */
  async walkOut(roomMs: number): Promise<void> {
    this.isWalkedOut = true
    this.handset.close()
    await this.wait(roomMs)
    await this.handset.reopen()
    this.isWalkedOut = false
  }

  async #loseLink(roomMs: number): Promise<void> {
    this.isOut = true
    this.handset.setLost(true)
    await this.wait(roomMs)
    this.handset.setLost(false)
    this.isOut = false
  }

  /** Works until it is told to end; what goes wrong in it is a fault of the demo. */
  async work(): Promise<void> {
    this.#isDone = false
    try {
      while (!this.#stopping.signal.aborted) await this.#step()
    } finally {
      this.#isDone = true
    }
  }

  end(): void {
    this.#stopping.abort()
  }

  get isDone(): boolean {
    return this.#isDone
  }

  async #step(): Promise<void> {
    const claim = this.#claim()
    if (claim && claim.held.claimNo !== this.#visitedNo) {
      this.#visitedNo = claim.held.claimNo
      const isLosing = this.habit === 'losesLink' && this.draw.oneIn(habitOneIn)
      const lost = isLosing ? this.#loseLink(this.draw.between(2, 6) * minuteMs) : null
      await visit(this, claim)
      await lost
      return
    }
    if (await doChore(this)) return
    if (!claim && (await claimNext(this))) await this.#untilClaimed()
    else await this.wait(this.draw.between(5 * secondMs, 15 * secondMs))
  }

  #claim() {
    const seen = this.handset.see()
    return seen ? claimOf(seen.board, this.person) : null
  }

  /** The answer comes a moment before or after the record that shows the claim. */
  async #untilClaimed(): Promise<void> {
    for (let tries = 0; tries < 20 && !this.#claim(); tries += 1) await this.wait(2 * secondMs)
  }
}
