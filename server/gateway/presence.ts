// Whether the people on shift can be reached: somebody is heard while any device they are signed in on is
// linked. Nobody heard for a minute, from their last link's end or from the start of this server, is
// said to be unreachable, and reachable again with the next link; each once, as a record of the
// server's own. What follows from it is the rules' (`shared/rules/presence.ts`).
//
//   linked ──last link ends──▶ 60 s ──▶ PersonUnreachable
//     ▲                         │                 │
//     ╰────── link, sign-in ◀───╯    link ──▶ PersonReachable

import { type LengthMs, minuteMs, type PersonId, secondMs } from '../../shared/base/values.ts'
import { presenceEvents } from '../../shared/rules/presence.ts'
import type { TimersPort } from '../scribe/ports.ts'
import type { RoomToTell } from './ports.ts'

/** A handheld in a pocket comes and goes; who walked out of the building stays away longer. Real time. */
export const unheardMs: LengthMs = minuteMs
/** A room that could not write this is asked again after so long; nothing else waits for it. */
const retryMs: LengthMs = 10 * secondMs

export type PresenceParts = {
  readonly room: Pick<RoomToTell, 'durable' | 'subscribe' | 'record'>
  readonly timers: TimersPort
  /** Everybody who is signed in on a device that is linked now. */
  readonly heard: () => ReadonlySet<PersonId>
}

export class Presence {
  readonly #parts: PresenceParts
  /** Who is waited for before they are said to be unreachable, and how to give it up. */
  readonly #waits = new Map<PersonId, () => void>()
  /** Of whom something is being written just now. */
  readonly #saying = new Set<PersonId>()
  #stop: (() => void) | null = null

  constructor(parts: PresenceParts) {
    this.#parts = parts
  }

  start(): void {
    this.#stop ??= this.#parts.room.subscribe(() => this.look())
    this.look()
  }

  stop(): void {
    this.#stop?.()
    this.#stop = null
    for (const giveUp of this.#waits.values()) giveUp()
    this.#waits.clear()
  }

  /** Called whenever a link began or ended, or somebody signed in or out. */
  look(): void {
    if (this.#stop === null) return
    const heard = this.#parts.heard()
    for (const person of Object.values(this.#parts.room.durable.board.people)) {
      if (this.#saying.has(person.id)) continue
      const isHere = person.shift !== 'off' && !person.isRemoved
      const isKnownHere = person.unreachableSinceMs === null
      if (!isHere || heard.has(person.id) === isKnownHere) this.#giveUp(person.id)
      else if (isKnownHere) this.#wait(person.id, unheardMs)
      else this.#say(person.id)
    }
  }

  /** One wait a person: it runs from when they were last heard, not from the last time anybody looked. */
  #wait(person: PersonId, waitMs: LengthMs): void {
    if (this.#waits.has(person)) return
    this.#waits.set(
      person,
      this.#parts.timers.after(waitMs, () => this.#say(person)),
    )
  }

  #giveUp(person: PersonId): void {
    this.#waits.get(person)?.()
    this.#waits.delete(person)
  }

  /** What is said is looked at in the room's own turn: what was true when it was asked for may be over. */
  #say(person: PersonId): void {
    const { room, heard } = this.#parts
    this.#giveUp(person)
    this.#saying.add(person)
    const told = room.record(({ board, nowMs }) =>
      this.#stop === null ? [] : presenceEvents(board, person, heard().has(person), nowMs),
    )
    void told.then(({ status }) => {
      this.#saying.delete(person)
      if (this.#stop === null) return
      if (status === 'recorded') this.look()
      else this.#wait(person, retryMs)
    })
  }
}
