// What stands outside and remembers: every command that left a device, and everything a device was
// told. It sees frames only, at the link, and believes nothing a session makes of them. After each
// kill the audit takes what was told since the last one and holds it against the disk.

import { hashBoard } from '../../shared/board/boardHash.ts'
import type { Answer, CommandFrame, FromScreen, FromServer } from '../../shared/wire/frames.ts'

/** `lane.n`. */
export type CommandKey = string
export const keyOf = ({ lane, n }: { lane: string; n: number }): CommandKey => `${lane}.${n}`

export type ToldAnswer = { readonly key: CommandKey; readonly answer: Answer }
export type ToldHash = { readonly version: number; readonly hash: number; readonly by: string }
/** A record as a screen got it, as text: only the fields that stand on disk as well. */
export type ToldRecord = {
  readonly version: number
  readonly key: CommandKey | null
  readonly text: string
}

export type Telling = {
  readonly sent: readonly CommandFrame[]
  readonly answers: readonly ToldAnswer[]
  readonly records: readonly ToldRecord[]
  readonly hashes: readonly ToldHash[]
  /** What no screen may be told, such as a version older than one it was told before. */
  readonly wrongs: readonly string[]
}

/** The same text for the same record, from the wire and from the disk. */
export const recordText = (record: {
  readonly version: number
  readonly atMs: number
  readonly cause: unknown
  readonly by: string | null
  readonly events: readonly unknown[]
}): string => {
  const { version, atMs, cause, by, events } = record
  return JSON.stringify({ version, atMs, cause, by, events })
}

type Screen = { toldVersion: number; linkVersion: number }

export class Oracle {
  readonly #screens = new Map<string, Screen>()
  #sent: CommandFrame[] = []
  #answers: ToldAnswer[] = []
  #records = new Map<number, ToldRecord>()
  #hashes: ToldHash[] = []
  #wrongs: string[] = []

  sent(screen: string, frame: FromScreen): void {
    if (frame.type === 'command') this.#sent.push(frame)
    // A tail goes on from the version the screen says it has.
    if (frame.type === 'hello') this.#seenBy(screen).linkVersion = frame.version
  }

  told(screen: string, frame: FromServer): void {
    const seen = this.#seenBy(screen)
    switch (frame.type) {
      case 'welcome':
        this.#welcomed(screen, seen, frame)
        return
      case 'record':
        if (frame.version !== seen.linkVersion + 1) {
          this.#wrongs.push(`${screen} got version ${frame.version} after ${seen.linkVersion}`)
        }
        this.#record(screen, seen, frame)
        return
      case 'beat':
        if (frame.hash === undefined) return
        this.#hashes.push({ version: frame.version, hash: frame.hash, by: 'a heartbeat' })
        return
      case 'answer':
        this.#answers.push({ key: keyOf(frame), answer: frame.answer })
        return
      default:
        return
    }
  }

  /** What was told since the last call. */
  drain(): Telling {
    const telling = {
      sent: this.#sent,
      answers: this.#answers,
      records: [...this.#records.values()],
      hashes: this.#hashes,
      wrongs: this.#wrongs,
    }
    this.#sent = []
    this.#answers = []
    this.#records = new Map()
    this.#hashes = []
    this.#wrongs = []
    return telling
  }

  #seenBy(screen: string): Screen {
    const seen = this.#screens.get(screen) ?? { toldVersion: 0, linkVersion: 0 }
    this.#screens.set(screen, seen)
    return seen
  }

  #welcomed(screen: string, seen: Screen, welcome: Extract<FromServer, { type: 'welcome' }>): void {
    const { state } = welcome
    const before = seen.toldVersion
    if (state.type === 'board') {
      const { version, board } = state
      this.#hashes.push({ version, hash: hashBoard(board), by: 'a welcome' })
      seen.linkVersion = version
      seen.toldVersion = Math.max(seen.toldVersion, version)
    } else {
      for (const record of state.records) this.#record(screen, seen, record)
    }
    if (seen.linkVersion < before) {
      this.#wrongs.push(`${screen} knew ${before} and was welcomed at ${seen.linkVersion}`)
    }
  }

  #record(screen: string, seen: Screen, record: Extract<FromServer, { type: 'record' }>): void {
    const { version, cause } = record
    const text = recordText(record)
    const known = this.#records.get(version)
    if (known !== undefined && known.text !== text) {
      this.#wrongs.push(`${screen} was told another version ${version} than others`)
    }
    const key = cause.type === 'command' ? keyOf(cause) : null
    this.#records.set(version, { version, key, text })
    seen.linkVersion = version
    seen.toldVersion = Math.max(seen.toldVersion, version)
  }
}
