// Who may speak on which device of a room, and who has shown that it is them. Every change is on disk
// before it is answered, so that neither a lock nor a sign-in is lost by a restart. Called at the edge,
// which it satisfies as doorkeeper and as book of devices; what a person may do, the rules say.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Chance } from '../clock/chance.ts'
import type { Disk } from '../disk/disk.ts'
import type { DurableLow } from '../disk/durableLow.ts'
import type { PinOutcome } from '../gateway/ports.ts'
import * as change from './changes.ts'
import { hashToken, hexOf, isSame, newCode, newToken, peppered } from './hashes.ts'
import { LineFull, type OneAtATime } from './oneAtATime.ts'
import type { PinHasher } from './pinHasher.ts'
import {
  type Code,
  codeLifeMs,
  type Device,
  type DeviceKind,
  type Pin,
  type SecretsData,
} from './secretsFile.ts'

export interface SecretsPlace {
  readonly disk: Disk
  /** `secrets.json` in the rooms folder. */
  readonly path: string
  /** The wall clock: locks and codes go on through a restart. */
  readonly nowMs: () => InstantMs
  readonly chance: Chance
  readonly hasher: PinHasher
}

export interface Paired {
  readonly device: string
  /** Told this once and never kept. */
  readonly token: string
}

/** How long whoever finds the line of PINs full is asked to wait. */
const lineFullWaitMs: LengthMs = 2_000

export interface SecretsFile {
  readonly place: SecretsPlace
  readonly low: DurableLow<SecretsData>
  /** Of PINs, over all rooms. */
  readonly line: OneAtATime
  /** When devices were last recognised; written with the next change, for itself it is worth none. */
  readonly seenAtMs: Map<string, InstantMs>
}

export class RoomSecrets {
  readonly codeLifeMs = codeLifeMs
  readonly #room: string
  readonly #place: SecretsPlace
  readonly #low: DurableLow<SecretsData>
  readonly #line: OneAtATime
  readonly #seenAtMs: Map<string, InstantMs>

  constructor(room: string, { place, low, line, seenAtMs }: SecretsFile) {
    this.#room = room
    this.#place = place
    this.#low = low
    this.#line = line
    this.#seenAtMs = seenAtMs
  }

  // Devices.

  /** Null when the room has as many devices as it may. */
  async pairDevice(kind: DeviceKind = 'hand'): Promise<Paired | null> {
    const token = newToken(this.#place.chance)
    const nowMs = this.#place.nowMs()
    const device = {
      room: this.#room,
      kind,
      tokenHash: hashToken(token),
      pairedAtMs: nowMs,
      lastSeenAtMs: nowMs,
      wrongRunning: 0,
      people: [],
    }
    let id: string | null = null
    await this.#change((data) => {
      const next = change.withDevice(data, device)
      id = next?.devices.at(-1)?.id ?? null
      return next ?? data
    })
    return id === null ? null : { device: id, token }
  }

  /** The device of this room that the token is of, or null. */
  deviceOf(token: string): string | null {
    const hash = hashToken(token)
    let found: string | null = null
    for (const { id, room, tokenHash } of this.#low.data.devices) {
      if (room === this.#room && isSame(tokenHash, hash)) found = id
    }
    if (found !== null) this.#seenAtMs.set(found, this.#place.nowMs())
    return found
  }

  /** A device that is linked is not silent, however long ago it said hello. */
  isStillPaired(device: string): boolean {
    if (this.#device(device) === null) return false
    this.#seenAtMs.set(device, this.#place.nowMs())
    return true
  }

  async unpair(device: string): Promise<void> {
    if (this.#device(device) !== null) {
      await this.#change((data) => change.withoutDevice(data, device))
    }
  }

  // People on them.

  signedIn(device: string): readonly PersonId[] {
    const nowMs = this.#place.nowMs()
    const people = this.#device(device)?.people ?? []
    return people.filter((one) => change.isSignedIn(one, nowMs)).map(({ person }) => person)
  }

  /** Signed in now, or so lately that an outbox may still bring what they did. */
  mayReport(device: string, person: PersonId): boolean {
    const nowMs = this.#place.nowMs()
    const people = this.#device(device)?.people ?? []
    return people.some((one) => one.person === person && change.mayStillReport(one, nowMs))
  }

  /** Somebody without a PIN is answered as a wrong PIN would be, and as slowly. */
  signIn(device: string, person: PersonId, pin: string): Promise<PinOutcome> {
    return this.#inLine(device, async () => {
      const who = { device, person, room: this.#room }
      const known = this.#pin(person)
      const waitMs = change.lockedForMs(known, this.#place.nowMs())
      if (waitMs > 0) return { type: 'locked', waitMs }
      const hash = await this.#hash(pin, known?.salt ?? noSalt)
      const isRight = known !== null && isSame(known.hash, hash)
      const nowMs = this.#place.nowMs()
      if (isRight) return this.#right((data) => change.withSignIn(data, who, nowMs))
      return this.#wrong(who, (data) => change.withWrongPin(data, who, nowMs))
    })
  }

  /** The code that was given out for this person, and the PIN they choose; they are signed in then. */
  redeem(
    device: string,
    person: PersonId,
    { code, pin }: { readonly code: string; readonly pin: string },
  ): Promise<PinOutcome> {
    return this.#inLine(device, async () => {
      const who = { device, person, room: this.#room }
      // Hashed before the code is looked at, so that trying codes out costs as much as trying PINs.
      const salt = hexOf(this.#place.chance.bytes(16))
      const hash = await this.#hash(pin, salt)
      const nowMs = this.#place.nowMs()
      const usable = this.#usableCode(person, code, nowMs)
      if (usable === null) return this.#wrong(who, (data) => change.withWrongTry(data, device))
      return this.#right((data) => {
        const used = change.withoutCode(data, usable)
        const known = change.withPin(used, { room: this.#room, person, salt, hash })
        return change.withSignIn(known, who, nowMs)
      })
    })
  }

  async signOut(device: string, person: PersonId): Promise<void> {
    if (!this.signedIn(device).includes(person)) return
    const nowMs = this.#place.nowMs()
    await this.#change((data) => change.withSignOut(data, { device, person }, nowMs))
  }

  /** Of somebody removed from the room: no PIN, no code, signed in nowhere. What they did still comes. */
  async forgetPerson(person: PersonId): Promise<void> {
    const nowMs = this.#place.nowMs()
    const isTheirs = (code: Code) => code.room === this.#room && code.purpose.person === person
    await this.#change((data) => {
      const out = data.devices
        .filter(({ room }) => room === this.#room)
        .reduce((next, { id }) => change.withSignOut(next, { device: id, person }, nowMs), data)
      const codes = out.codes.filter((code) => !isTheirs(code))
      return { ...change.withoutPin(out, { room: this.#room, person }), codes }
    })
  }

  // PINs and codes.

  hasPin(person: PersonId): boolean {
    return this.#pin(person) !== null
  }

  /** For a room that comes with its PINs, such as the demo's. Throws `LineFull`. */
  setPin(person: PersonId, pin: string): Promise<void> {
    return this.#line.run(async () => {
      const salt = hexOf(this.#place.chance.bytes(16))
      const hash = await this.#hash(pin, salt)
      await this.#change((data) => change.withPin(data, { room: this.#room, person, salt, hash }))
    })
  }

  /** Digits that let this person choose a PIN, once and soon. An earlier code of theirs ends. */
  async issueCode(person: PersonId): Promise<string> {
    const digits = newCode(this.#place.chance)
    const nowMs = this.#place.nowMs()
    await this.#change((data) => {
      const codes = data.codes.filter(
        ({ room, purpose }) => room !== this.#room || purpose.person !== person,
      )
      const code: Code = {
        room: this.#room,
        hash: hexOf(peppered(data.pepper, digits)),
        purpose: { type: 'pin', person },
        expiresAtMs: nowMs + codeLifeMs,
      }
      return change.withCode({ ...data, codes }, code, nowMs)
    })
    return digits
  }

  // Inside.

  #device(id: string): Device | null {
    const isIt = (device: Device) => device.id === id && device.room === this.#room
    return this.#low.data.devices.find(isIt) ?? null
  }

  #pin(person: PersonId): Pin | null {
    const isIt = (pin: Pin) => pin.room === this.#room && pin.person === person
    return this.#low.data.pins.find(isIt) ?? null
  }

  #usableCode(person: PersonId, digits: string, nowMs: InstantMs): Code | null {
    const hash = hexOf(peppered(this.#low.data.pepper, digits))
    const isIt = (code: Code) =>
      code.room === this.#room && code.purpose.person === person && isSame(code.hash, hash)
    return this.#low.data.codes.find((code) => isIt(code) && change.isUsable(code, nowMs)) ?? null
  }

  async #hash(pin: string, salt: string): Promise<string> {
    const secret = peppered(this.#low.data.pepper, pin)
    return hexOf(await this.#place.hasher(secret, Buffer.from(salt, 'hex')))
  }

  /** Looks at the locks only when it is this one's turn: a hundred at once get no more tries than one. */
  async #inLine(device: string, attempt: () => Promise<PinOutcome>): Promise<PinOutcome> {
    try {
      return await this.#line.run(async () =>
        this.#device(device) === null ? { type: 'unpaired' as const } : attempt(),
      )
    } catch (error) {
      if (error instanceof LineFull) return { type: 'locked', waitMs: lineFullWaitMs }
      throw error
    }
  }

  async #right(next: (data: SecretsData) => SecretsData): Promise<PinOutcome> {
    await this.#change(next)
    return { type: 'right' }
  }

  async #wrong(
    { device, person }: change.WhoWhere,
    next: (data: SecretsData) => SecretsData,
  ): Promise<PinOutcome> {
    await this.#change(next)
    if (this.#device(device) === null) return { type: 'unpaired' }
    const waitMs = change.lockedForMs(this.#pin(person), this.#place.nowMs())
    return waitMs > 0 ? { type: 'locked', waitMs } : { type: 'wrong' }
  }

  async #change(next: (data: SecretsData) => SecretsData): Promise<void> {
    await this.#low.change((data) => {
      const wanted = next(data)
      return wanted === data ? data : this.#withSeen(wanted)
    })
  }

  #withSeen(data: SecretsData): SecretsData {
    const seenAtMs = (device: Device) => this.#seenAtMs.get(device.id) ?? device.lastSeenAtMs
    const devices = data.devices.map((device) => ({ ...device, lastSeenAtMs: seenAtMs(device) }))
    const ids = new Set(devices.map(({ id }) => id))
    for (const id of this.#seenAtMs.keys()) if (!ids.has(id)) this.#seenAtMs.delete(id)
    return { ...data, devices }
  }
}

/** Somebody who has no PIN is hashed as well. */
const noSalt = '0'.repeat(32)
