// Whatever the outside can see of a simulated room, gathered between one step and the next: what the
// server told and the devices heard, what became durable, what screens showed, what stores kept. It
// judges nothing; the invariants read one `Step` after another.

import type { OutboxContents, OutboxEntry } from '../../client/session/ports.ts'
import type { InstantMs } from '../../shared/base/values.ts'
import type {
  Answer,
  AnswerFrame,
  Beat,
  CommandFrame,
  Fault,
  FromScreen,
  FromServer,
  HelloFrame,
  RecordFrame,
  Welcome,
} from '../../shared/wire/frames.ts'
import { printOf } from './boardPrint.ts'
import type { EventQueue } from './eventQueue.ts'
import { frozen } from './frozen.ts'
import type { Wiretap } from './network.ts'
import type { Happened } from './reference.ts'
import type { Screen } from './screen.ts'

export type CommandId = string
export const commandId = (lane: string, n: number): CommandId => `${lane}.${n}`

export type ToldAnswer = {
  readonly id: CommandId
  readonly device: string
  readonly answer: Answer
  /** Which life of the server said it. */
  readonly life: number
}

export type Shown = {
  readonly screen: Screen
  readonly life: number
  readonly epoch: number
  readonly version: number
  readonly by: 'board' | 'record'
  readonly print: number
}

/** A command the server took in, and what it made of it. */
export type TakenIn = { readonly id: CommandId; readonly life: number; readonly sequence: number }
export type Settled = TakenIn & { readonly outcome: Answer | Fault }

export type SentHello = { readonly device: string; readonly hello: HelloFrame }
export type ToldWelcome = { readonly device: string; readonly welcome: Welcome }
export type Kept = {
  readonly device: string
  readonly entry: OutboxEntry
  /** The id of the note that this one replaces. */
  readonly insteadOf: string | undefined
}
export type StoreSeen = { readonly device: string; readonly contents: OutboxContents }
export type HeardFrame = { readonly device: string; readonly frame: FromServer }

/** What has come to be seen since the step before. */
export type Seen = {
  readonly happened: readonly Happened[]
  readonly told: readonly ToldAnswer[]
  readonly toldRecords: readonly RecordFrame[]
  readonly beats: readonly Beat[]
  readonly welcomes: readonly ToldWelcome[]
  readonly hellos: readonly SentHello[]
  readonly commands: readonly CommandFrame[]
  readonly heard: readonly HeardFrame[]
  readonly shown: readonly Shown[]
  readonly takenIn: readonly TakenIn[]
  readonly settled: readonly Settled[]
  readonly kept: readonly Kept[]
  readonly stores: readonly StoreSeen[]
}

type Gathering = { -readonly [Part in keyof Seen]: Seen[Part][number][] }

const nothingYet = (): Gathering => ({
  happened: [],
  told: [],
  toldRecords: [],
  beats: [],
  welcomes: [],
  hellos: [],
  commands: [],
  heard: [],
  shown: [],
  takenIn: [],
  settled: [],
  kept: [],
  stores: [],
})

export class Witness implements Wiretap {
  #seen = nothingYet()
  #isEmpty = true
  #lastTold: { readonly text: string; readonly frame: FromServer } | null = null
  /** Which life of the server is speaking. */
  serverLife = 0
  /** The latest room's time each device ever heard, by the frames that reached it. */
  readonly heardAtMs = new Map<string, InstantMs>()
  /** When a frame last reached each device, by the world's time. */
  readonly lastFrameAtMs = new Map<string, number>()
  readonly #queue: EventQueue

  constructor(queue: EventQueue) {
    this.#queue = queue
  }

  /** Whether there was nothing to see since the last call. */
  get isEmpty(): boolean {
    return this.#isEmpty
  }

  /** Everything since the last call. */
  drain(): Seen {
    if (this.#isEmpty) return this.#seen
    const seen = this.#seen
    this.#seen = nothingYet()
    this.#isEmpty = true
    this.#lastTold = null
    return seen
  }

  sent(device: string, text: string): void {
    const frame: FromScreen = JSON.parse(text)
    if (frame.type === 'command') this.#gather().commands.push(frame)
    if (frame.type === 'hello') this.#gather().hellos.push({ device, hello: frame })
  }

  told(device: string, text: string): void {
    const isNews = this.#lastTold?.text !== text
    const frame = this.#read(text)
    if (frame.type === 'answer') this.#answer(device, frame)
    else if (frame.type === 'welcome') this.#gather().welcomes.push({ device, welcome: frame })
    else if (frame.type === 'record' && isNews) this.#gather().toldRecords.push(frame)
    else if (frame.type === 'beat' && isNews) this.#gather().beats.push(frame)
  }

  heard(device: string, frame: FromServer): void {
    this.lastFrameAtMs.set(device, this.#queue.nowMs)
    if (frame.type === 'beat' || frame.type === 'welcome') {
      this.heardAtMs.set(device, Math.max(frame.nowMs, this.heardAtMs.get(device) ?? 0))
    }
    if (frame.type !== 'beat') this.#gather().heard.push({ device, frame })
  }

  happened(one: Happened): void {
    this.#gather().happened.push(one)
  }

  shown(screen: Screen, by: Shown['by']): void {
    const snapshot = screen.watch?.snapshot()
    if (snapshot === undefined || snapshot.board === null) return
    const { epoch, version, board } = snapshot
    const print = printOf(board)
    this.#gather().shown.push({ screen, life: screen.life, epoch, version, by, print })
  }

  takenIn(one: TakenIn): void {
    this.#gather().takenIn.push(one)
  }

  settled(one: Settled): void {
    this.#gather().settled.push(one)
  }

  kept(one: Kept): void {
    this.#gather().kept.push(one)
  }

  store(one: StoreSeen): void {
    this.#gather().stores.push(one)
  }

  #answer(device: string, { lane, n, answer }: AnswerFrame): void {
    const id = commandId(lane, n)
    this.#gather().told.push({ id, device, answer, life: this.serverLife })
  }

  #gather(): Gathering {
    this.#isEmpty = false
    return this.#seen
  }

  /** The same text goes to every screen, one after the other. */
  #read(text: string): FromServer {
    if (this.#lastTold?.text === text) return this.#lastTold.frame
    const frame: FromServer = frozen(JSON.parse(text))
    this.#lastTold = { text, frame }
    return frame
  }
}
