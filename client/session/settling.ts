// What an answer, or the lack of one for good, means for what this device noted: done, kept, or put
// aside for a person to see. Called by the lane's sender; which number goes out when is decided there.

import type { Answer, FaultCode } from '../../shared/wire/frames.ts'
import type { OpenAsks } from './openAsks.ts'
import type { Held, HeldNote, HeldStuck, Outbox } from './outbox.ts'
import type { ReportAnswer } from './outcomes.ts'
import type { Told } from './ports.ts'

export interface SettlingRoom {
  readonly epoch: number
  readonly told: Told
  tell(told: Told): void
}

export interface SettlingEvents {
  /** The board need not show it yet. */
  applied(note: HeldNote, version: number): void
  /** An ask that nobody waited for any more had got through. */
  answeredLate(note: HeldNote, version: number): void
  reportAnswered(n: number, answer: ReportAnswer): void
}

export type SettlingParts = {
  readonly outbox: Outbox
  readonly asks: OpenAsks
  readonly room: SettlingRoom
  readonly events: SettlingEvents
}

export class Settling {
  readonly #parts: SettlingParts

  constructor(parts: SettlingParts) {
    this.#parts = parts
  }

  /** A second answer to the same number finds nothing waiting and changes nothing. */
  async answered(n: number, answer: Answer): Promise<void> {
    const { outbox, room } = this.#parts
    if (answer.status === 'applied') room.tell({ epoch: room.epoch, version: answer.version })
    const held = outbox.held(n)
    const stuck = outbox.stuckWithNumber(n)
    if (held?.entry.standing.type === 'waiting') {
      if (held.entry.kind === 'ask') await this.#ask(held, answer)
      else await this.#report(held, answer)
    } else if (stuck?.entry.number === 'owed') await this.#stuck(stuck, answer)
  }

  /** The server will not take this report as it is: its body goes aside and its number is withdrawn. */
  async refused(held: Held, code: FaultCode): Promise<void> {
    await this.#setAside(held, { why: { type: 'fault', code }, number: 'owed' })
  }

  /**
   * The server settled the number so long ago that it has no answer to it any more. Whether what it
   * has is what we hold, only a person can tell.
   */
  async overtaken(n: number): Promise<void> {
    const { outbox, asks, room } = this.#parts
    const held = outbox.held(n)
    const stuck = outbox.stuckWithNumber(n)
    if (held?.entry.kind === 'ask') {
      asks.close(n, { status: 'expired' })
      await outbox.answered(held, { status: 'rejected', why: { code: 'Expired' } }, room.told)
    } else if (held !== undefined) {
      await this.#setAside(held, { why: { type: 'fault', code: 'laneGap' }, number: 'withdrawn' })
    } else if (stuck !== undefined) await outbox.numberWithdrawn(stuck)
  }

  async #ask(held: Held, answer: Answer): Promise<void> {
    const { outbox, asks, events, room } = this.#parts
    if (answer.status === 'applied') events.applied(held, answer.version)
    const wasAwaited = asks.close(held.entry.n, answer)
    if (answer.status === 'applied' && !wasAwaited) events.answeredLate(held, answer.version)
    await outbox.answered(held, answer, room.told)
  }

  /** A report is never rejected for the state of the room; one that is all the same is not lost by it. */
  async #report(held: Held, answer: Answer): Promise<void> {
    const { outbox, events, room } = this.#parts
    if (answer.status === 'rejected') {
      await this.#setAside(held, {
        why: { type: 'rejected', why: answer.why },
        number: 'withdrawn',
      })
      return
    }
    events.applied(held, answer.version)
    events.reportAnswered(held.entry.n, answer)
    await outbox.answered(held, answer, room.told)
  }

  /** Applied: it had arrived before it was put aside, and needs no person any more. */
  async #stuck(stuck: HeldStuck, answer: Answer): Promise<void> {
    const { outbox, events } = this.#parts
    if (answer.status === 'rejected') return outbox.numberWithdrawn(stuck)
    events.applied(stuck, answer.version)
    await outbox.forgetStuck(stuck.entry.id)
  }

  async #setAside(held: Held, about: Pick<HeldStuck['entry'], 'why' | 'number'>): Promise<void> {
    const { outbox, events } = this.#parts
    events.reportAnswered(held.entry.n, { status: 'stuck', why: about.why })
    await outbox.setAside(held, about)
  }
}
