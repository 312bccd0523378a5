// The two halves of a room's door as the simulated world hands them to the real gateway: the room
// itself with an eye on every command that goes in, and a doorkeeper who knows each device and lets
// its people sign in with any PIN. Who is signed in outlives the server, as its own file does.

import type { Doorkeeper, PinOutcome, RoomToTell } from '../../server/gateway/ports.ts'
import type { Room } from '../../server/room/room.ts'
import type { Taken } from '../../server/scribe/turn.ts'
import type { ServerRecorded, ServerTurn } from '../../server/scribe/waiting.ts'
import type { PersonId } from '../../shared/base/values.ts'
import type { Answer, Fault, RecordFrame } from '../../shared/wire/frames.ts'
import { commandId, type Witness } from './witness.ts'

export class WatchedRoom implements RoomToTell {
  readonly #room: Room
  readonly #witness: Witness
  readonly #life: number
  #sequence = 0

  constructor(room: Room, witness: Witness, life: number) {
    this.#room = room
    this.#witness = witness
    this.#life = life
  }

  get id(): string {
    return this.#room.id
  }
  get epoch(): number {
    return this.#room.epoch
  }
  get speed(): number {
    return this.#room.speed
  }
  get durable(): Room['durable'] {
    return this.#room.durable
  }
  nowMs(): number {
    return this.#room.nowMs()
  }
  hash(): number {
    return this.#room.hash()
  }
  house(): ReturnType<Room['house']> {
    return this.#room.house()
  }
  names(): ReturnType<Room['names']> {
    return this.#room.names()
  }
  recordsAfter(version: number): readonly RecordFrame[] | null {
    return this.#room.recordsAfter(version)
  }
  lastRecords(count: number): readonly RecordFrame[] {
    return this.#room.lastRecords(count)
  }
  subscribe(tell: (record: RecordFrame) => void): () => void {
    return this.#room.subscribe(tell)
  }
  laneN(lane: string): number {
    return this.#room.laneN(lane)
  }
  record(turn: ServerTurn): Promise<ServerRecorded> {
    return this.#room.record(turn)
  }

  async take(taken: Taken): Promise<Answer | Fault> {
    this.#sequence += 1
    const id = commandId(taken.lane, taken.n)
    const one = { id, life: this.#life, sequence: this.#sequence }
    this.#witness.takenIn(one)
    const outcome = await this.#room.take(taken)
    this.#witness.settled({ ...one, outcome })
    return outcome
  }
}

export class TrustingDoorkeeper implements Doorkeeper {
  readonly #deviceByToken = new Map<string, string>()
  readonly #signedIn = new Map<string, PersonId[]>()
  readonly #everHere = new Set<string>()

  pair(token: string, device: string): void {
    this.#deviceByToken.set(token, device)
  }

  deviceOf(token: string): string | null {
    return this.#deviceByToken.get(token) ?? null
  }

  /** No device of this world is ever unpaired. */
  isStillPaired(): boolean {
    return true
  }

  signedIn(device: string): readonly PersonId[] {
    return this.#signedIn.get(device) ?? []
  }

  mayReport(device: string, person: PersonId): boolean {
    return this.#everHere.has(`${device} ${person}`)
  }

  async signIn(device: string, person: PersonId): Promise<PinOutcome> {
    const others = this.signedIn(device).filter((other) => other !== person)
    this.#signedIn.set(device, [...others, person])
    this.#everHere.add(`${device} ${person}`)
    return { type: 'right' }
  }

  /** Nobody of this world needs one: whoever is in the room may sign in. */
  readonly codeLifeMs = 0
  async issueCode(): Promise<string> {
    throw new Error('nobody of this world asks for a code')
  }

  redeem(device: string, person: PersonId): Promise<PinOutcome> {
    return this.signIn(device, person)
  }

  /** Whatever was signed in there is no longer, and what it brings is not taken. */
  forget(device: string): void {
    this.#signedIn.delete(device)
    for (const key of this.#everHere) if (key.startsWith(`${device} `)) this.#everHere.delete(key)
  }

  async signOut(device: string, person: PersonId): Promise<void> {
    const others = this.signedIn(device).filter((other) => other !== person)
    this.#signedIn.set(device, others)
  }
}
