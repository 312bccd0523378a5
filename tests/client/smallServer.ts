// A room of one lane, small enough to be read at a glance: it takes numbers as the real one does (by the
// real rule for repeats and gaps), keeps a log instead of a journal, and can be restarted and restored.
// What it may do at random is drawn by the walk that drives it.

import { type Lane, settle as settleLane, standingOf } from '../../server/lanes/lanes.ts'
import type { IncubatorId } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import type { Command } from '../../shared/board/commands.ts'
import { isAsk } from '../../shared/board/rights.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { evolve } from '../../shared/rules/evolve.ts'
import type {
  Answer,
  Beat,
  CommandFrame,
  FromServer,
  RecordFrame,
  Welcome,
} from '../../shared/wire/frames.ts'
import { ana, roomMs, takenBack, welcome } from './device.ts'

export type Logged = { readonly n: number; readonly tag: string }

/** What tells one command of the walk from every other. */
export const tagOf = (body: Command): string => JSON.stringify(body)

export class SmallServer {
  epoch = 1
  #log: Logged[] = []
  #lane: Lane | undefined
  /** Whether the next ask is granted, and whether the server is busy; the walk sets them. */
  grants = true
  isBusy = false

  get log(): readonly Logged[] {
    return this.#log
  }

  /** The frames that answer a command, records first. */
  take({ n, body, lane }: CommandFrame): readonly FromServer[] {
    const standing = standingOf(this.#lane, n)
    if (standing.type === 'gap') {
      return [{ type: 'fault', code: 'laneGap', lane, n, expected: standing.expected }]
    }
    if (standing.type === 'repeat') return [{ type: 'answer', lane, n, answer: standing.answer }]
    if (standing.type === 'forgotten') {
      return [{ type: 'answer', lane, n, answer: this.#answerFromLog(n) }]
    }
    if (this.isBusy) return [{ type: 'fault', code: 'busy', lane, n }]
    return this.#decide({ n, body, lane })
  }

  welcome(known: { epoch: number; version: number }): Welcome {
    const isTail = known.epoch === this.epoch && known.version <= this.#log.length
    const version = this.#log.length
    return welcome(version, {
      epoch: this.epoch,
      laneN: this.#lane?.settledN ?? 0,
      device: { id: 'd7', signedIn: [ana] },
      state: isTail
        ? { type: 'tail', records: this.#records().slice(known.version) }
        : { type: 'board', version, board: this.board() },
    })
  }

  beat(): Beat {
    return {
      type: 'beat',
      nowMs: roomMs,
      version: this.#log.length,
      hash: hashBoard(this.board()),
      house: [],
    }
  }

  board(): Board {
    return this.#records()
      .flatMap(({ events }) => events)
      .reduce(evolve, emptyBoard)
  }

  /** Refusals were in memory alone. */
  restart(): void {
    this.#lane = this.#laneFromLog()
  }

  /** The last records are lost, and the epoch says so. */
  restore(recordsLost: number): void {
    this.#log = this.#log.slice(0, Math.max(0, this.#log.length - recordsLost))
    this.epoch += 1
    this.restart()
  }

  #decide({ n, body, lane }: Pick<CommandFrame, 'n' | 'body' | 'lane'>): readonly FromServer[] {
    const answer = this.#answerTo(body)
    if (answer.status === 'applied') this.#log.push({ n, tag: tagOf(body) })
    this.#lane = settleLane(this.#lane, { n, answer }, roomMs)
    const records = answer.status === 'applied' ? this.#records().slice(-1) : []
    return [...records, { type: 'answer', lane, n, answer }]
  }

  #answerTo(body: Command): Answer {
    if (body.type === 'Withdrawn') return takenBack
    if (isAsk(body.type) && !this.grants) return { status: 'rejected', why: { code: 'OnBreak' } }
    return { status: 'applied', version: this.#log.length + 1 }
  }

  #answerFromLog(n: number): Answer {
    const place = this.#log.findIndex((logged) => logged.n === n)
    return place < 0 ? takenBack : { status: 'applied', version: place + 1 }
  }

  #laneFromLog(): Lane | undefined {
    return this.#log.reduce<Lane | undefined>(
      (lane, { n }, place) =>
        settleLane(lane, { n, answer: { status: 'applied', version: place + 1 } }, roomMs),
      undefined,
    )
  }

  /** Every record is one more incubator, labelled by what made it, so that any loss changes the board. */
  #records(): readonly RecordFrame[] {
    return this.#log.map(({ n, tag }, place) => ({
      type: 'record',
      version: place + 1,
      atMs: roomMs,
      cause: { type: 'command', lane: 'd7', n },
      by: ana,
      events: [
        { type: 'IncubatorAdded', v: 1, incubator: `i${place + 1}` as IncubatorId, label: tag },
      ],
    }))
  }
}
