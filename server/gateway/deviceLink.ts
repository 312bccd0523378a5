// What a paired device may send: commands in its own lanes by people signed in on it, signing in and
// out, a code for somebody's first sign-in, and a wish to read the last records. The edge looks at device and sign-in only; whether this person may do this thing is the
// rules' to say. Nothing here throws for what a message says: it answers with the code of a fault.

import { unreachable } from '../../shared/base/control.ts'
import type { PersonId } from '../../shared/base/values.ts'
import { isAsk } from '../../shared/board/rights.ts'
import type {
  AnswerFrame,
  CodeFrame,
  CommandFrame,
  Fault,
  FaultCode,
  FromScreen,
  FromServer,
  SignedIn,
} from '../../shared/wire/frames.ts'
import { isInRoom, peopleOn } from './peopleOn.ts'
import type { Doorkeeper, PinOutcome, RoomDoor } from './ports.ts'

/** What is going on for one device, over all its sockets. */
export class DeviceLink {
  readonly #door: RoomDoor
  readonly #device: string
  /** The number each lane waits an answer for, and how many sockets asked. */
  readonly #inFlight = new Map<string, { readonly n: number; asked: number }>()
  #isCheckingPin = false

  constructor(door: RoomDoor, device: string) {
    this.#door = door
    this.#device = device
  }

  /** The answer to one frame; who is signed in goes to every screen of the device. */
  async take(frame: Exclude<FromScreen, { type: 'hello' }>): Promise<FromServer> {
    switch (frame.type) {
      case 'command':
        return this.#command(frame)
      case 'signIn':
        return this.#withPin(frame.person, (doorkeeper) =>
          doorkeeper.signIn(this.#device, frame.person, frame.pin),
        )
      case 'redeem':
        return this.#withPin(frame.person, (doorkeeper) =>
          doorkeeper.redeem(this.#device, frame.person, { code: frame.code, pin: frame.pin }),
        )
      case 'signOut':
        await this.#door.doorkeeper.signOut(this.#device, frame.person)
        return this.#signedIn()
      case 'issueCode':
        return this.#issueCode(frame.person)
      case 'recentRecords':
        return { type: 'records', records: this.#door.room.lastRecords(frame.count) }
      default:
        return unreachable(frame)
    }
  }

  async #command(frame: CommandFrame): Promise<AnswerFrame | Fault> {
    const { lane, n, by, timing, body } = frame
    const refused = this.#whyNotTaken(frame)
    if (refused !== null) return { type: 'fault', code: refused, lane, n }
    const flying = this.#inFlight.get(lane) ?? { n, asked: 0 }
    this.#inFlight.set(lane, flying)
    flying.asked += 1
    try {
      const taken = { lane, n, by, device: this.#device, timing, body }
      const answer = await this.#door.room.take(taken)
      return 'status' in answer ? { type: 'answer', lane, n, answer } : answer
    } finally {
      flying.asked -= 1
      if (flying.asked === 0) this.#inFlight.delete(lane)
    }
  }

  /** The same number may be asked again while it is in flight: a device that came back does so. */
  #whyNotTaken({ lane, n, by, body }: CommandFrame): FaultCode | null {
    if (!isLaneOf(this.#device, lane)) return 'laneNotYours'
    const flying = this.#inFlight.get(lane)
    if (flying !== undefined && flying.n !== n) return 'busy'
    // A withdrawal does nothing in anybody's name; it only keeps the lane's numbers whole.
    if (body.type === 'Withdrawn') return null
    const { doorkeeper } = this.#door
    const maySpeak = isAsk(body.type)
      ? doorkeeper.signedIn(this.#device).includes(by)
      : doorkeeper.mayReport(this.#device, by)
    return maySpeak ? null : 'notSignedIn'
  }

  /**
   * One PIN at a time: hashes are slow on purpose, and a flood of them would hold everybody's turn.
   * Somebody unknown or removed is answered as a wrong PIN would be.
   */
  async #withPin(
    person: PersonId,
    check: (doorkeeper: Doorkeeper) => Promise<PinOutcome>,
  ): Promise<SignedIn | Fault> {
    if (this.#isCheckingPin) return { type: 'fault', code: 'busy' }
    if (!isInRoom(this.#door, person)) return pinFault({ type: 'wrong' })
    this.#isCheckingPin = true
    try {
      const outcome = await check(this.#door.doorkeeper)
      return outcome.type === 'right' ? this.#signedIn() : pinFault(outcome)
    } finally {
      this.#isCheckingPin = false
    }
  }

  /** Whoever holds the code becomes that person, so none but a permit holder may ask for it. */
  async #issueCode(person: PersonId): Promise<CodeFrame | Fault> {
    const { room, doorkeeper } = this.#door
    const { people } = room.durable.board
    const mayAsk = peopleOn(this.#door, this.#device).some(
      (here) => people[here]?.role === 'permitHolder',
    )
    if (!mayAsk) return { type: 'fault', code: 'notAllowed' }
    if (!isInRoom(this.#door, person)) return { type: 'fault', code: 'personUnknown' }
    const code = await doorkeeper.issueCode(person)
    return { type: 'code', person, code, lifeMs: doorkeeper.codeLifeMs }
  }

  #signedIn(): SignedIn {
    return { type: 'signedIn', people: peopleOn(this.#door, this.#device) }
  }
}

function pinFault(outcome: Exclude<PinOutcome, { type: 'right' }>): Fault {
  switch (outcome.type) {
    case 'wrong':
      return { type: 'fault', code: 'pinWrong' }
    case 'locked':
      return { type: 'fault', code: 'pinLocked', waitMs: outcome.waitMs }
    case 'unpaired':
      return { type: 'fault', code: 'notPaired' }
    default:
      return unreachable(outcome)
  }
}

/** A lane is called after its device, with a letter behind it where a device keeps more than one. */
export const isLaneOf = (device: string, lane: string): boolean =>
  lane === device ||
  (lane.length === device.length + 1 && lane.startsWith(device) && /[a-z]$/.test(lane))
