// The handheld that claims: one person signed in, one order at a time. Not a session, so that the order
// leaves at the very moment it is timed.

import type { PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { FromServer, RecordFrame } from '../../shared/wire/frames.ts'
import { type Entering, Screen } from './screen.ts'

export type HandParts = Omit<Entering, 'screen'> & {
  readonly person: PersonId
  readonly pin: string
}

type Lane = { readonly id: string; n: number; readonly heardAtMs: number }

export class Hand {
  readonly #screen: Screen
  readonly #person: PersonId
  readonly #lane: Lane

  private constructor(screen: Screen, person: PersonId, lane: Lane) {
    this.#screen = screen
    this.#person = person
    this.#lane = lane
  }

  /** Signed in and on shift. Rejects with the fault when the room will not have it. */
  static async onShift({ person, pin, ...entering }: HandParts): Promise<Hand> {
    const { screen, welcome } = await Screen.enter({ ...entering, screen: 'hand' })
    const { device, laneN, nowMs } = welcome
    if (device === null || laneN === null) throw new Error('the handheld is not paired')
    screen.send({ type: 'signIn', person, pin })
    await screen.answer((frame) => (frame.type === 'signedIn' ? frame : null))
    const hand = new Hand(screen, person, { id: device.id, n: laneN, heardAtMs: nowMs })
    await hand.give({ type: 'BeginShift', v: 1 })
    return hand
  }

  /** Whether a frame is the record of the order given last. */
  isRecord(frame: FromServer): frame is RecordFrame {
    if (frame.type !== 'record' || frame.cause.type !== 'command') return false
    return frame.cause.n === this.#lane.n && frame.cause.lane === this.#lane.id
  }

  /** Sends at once; settles with the answer. Its record, where it leaves one, has been shown by then. */
  async give(body: Command): Promise<RecordFrame | null> {
    const { id: lane, heardAtMs } = this.#lane
    this.#lane.n += 1
    const { n } = this.#lane
    let record: RecordFrame | null = null
    const timing = { notedAgoMs: 0, heardAtMs }
    this.#screen.send({ type: 'command', lane, n, by: this.#person, timing, body })
    const { answer } = await this.#screen.answer((frame) => {
      if (this.isRecord(frame)) record = frame
      return frame.type === 'answer' && frame.n === n ? frame : null
    })
    if (answer.status === 'applied') return record
    throw new Error(`${body.type} was refused: ${JSON.stringify(answer.why)}`)
  }

  leave(): void {
    this.#screen.leave()
  }
}
