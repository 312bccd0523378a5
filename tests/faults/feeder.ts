// One simulated person with a device of their own: the real session over the real socket, an outbox
// that outlives it, and work without a pause. Everything that passes its link is heard by the oracle.

import type { Chance } from '../../client/session/ports.ts'
import { realTimers } from '../../client/session/realTimers.ts'
import { Session } from '../../client/session/session.ts'
import { SocketLink } from '../../client/session/socketLink.ts'
import { MemoryOutbox } from '../../client/stores/memoryOutbox.ts'
import type { PersonId } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import type { AskType, CommandOf } from '../../shared/board/commands.ts'
import { isAsk } from '../../shared/board/rights.ts'
import { evolve } from '../../shared/rules/evolve.ts'
import type { Choose } from '../support/fakeMedium.ts'
import { type Deed, nextDeed } from './feederWork.ts'
import { ListeningLink, type Passing } from './listeningLink.ts'
import type { Oracle } from './oracle.ts'

export type FeederParts = {
  readonly person: PersonId
  readonly pin: string
  readonly token: string
  readonly room: string
  readonly origin: string
  readonly oracle: Oracle
  readonly choose: Choose
  readonly freshMassMg: () => number
  readonly heard: (passing: Passing) => void
}

/** Beyond it a feeder waits: a server that is away for long must not meet a flood. */
const pendingMax = 12
const thinkMostMs = 60
/** A store or a fold that fails is a failure of the run; more sentences say nothing more. */
const complaintsMax = 20

export class Feeder {
  readonly #parts: FeederParts
  readonly #store = new MemoryOutbox()
  readonly complaints: string[] = []
  /** Reports this person made; each must reach the room. */
  reports = 0
  #link: ListeningLink
  #session: Session
  #isWorking = false
  #thinking: ReturnType<typeof setTimeout> | null = null

  constructor(parts: FeederParts) {
    this.#parts = parts
    this.#link = this.#newLink()
    this.#session = this.#newSession()
  }

  get name(): string {
    return this.#parts.person
  }

  async start(): Promise<void> {
    await this.#store.write({ token: this.#parts.token })
    await this.#session.start()
  }

  /** Once the room is live: the PIN, and the shift begins. True when both are done. */
  async signIn(): Promise<boolean> {
    const { person, pin } = this.#parts
    const { status } = await this.#session.signIn(person, pin)
    if (status !== 'done') return false
    const begun = await this.#session.ask(person, { type: 'BeginShift', v: 1 })
    return begun.status === 'applied'
  }

  get isLive(): boolean {
    return this.#session.snapshot().canAsk
  }
  /** Something the server has sent may still be on its way here. */
  get isLinked(): boolean {
    return this.#link.isUp
  }
  /** Everything noted on the device has its answer. */
  get isDrained(): boolean {
    const { pending, stuck } = this.#session.snapshot()
    return pending.length === 0 && stuck.length === 0
  }
  get stuckCount(): number {
    return this.#session.snapshot().stuck.length
  }
  get boardHash(): number | null {
    const { board } = this.#session.snapshot()
    return board === null ? null : hashBoard(board)
  }
  get version(): number {
    return this.#session.snapshot().version
  }

  /** As a page reloaded: what it held in memory is gone, the outbox is not. */
  async reload(): Promise<void> {
    this.#session.stop()
    this.#link = this.#newLink()
    this.#session = this.#newSession()
    await this.#session.start()
  }

  work(): void {
    if (this.#isWorking) return
    this.#isWorking = true
    this.#think()
  }

  rest(): void {
    this.#isWorking = false
    if (this.#thinking !== null) clearTimeout(this.#thinking)
  }

  stop(): void {
    this.rest()
    this.#session.stop()
  }

  /** Several reports in one breath, so that a flush is under way when the next ones come. */
  async hurry(count: number): Promise<void> {
    for (let done = 0; done < count; done += 1) await this.#act()
  }

  #think(): void {
    this.#thinking = setTimeout(async () => {
      await this.#act()
      if (this.#isWorking) this.#think()
    }, this.#parts.choose(thinkMostMs))
  }

  async #act(): Promise<void> {
    const { person, choose, freshMassMg } = this.#parts
    const { board, pending } = this.#session.snapshot()
    const nowMs = this.#session.roomNowMs()
    if (board === null || nowMs === null || pending.length >= pendingMax) return
    const deed = nextDeed({ board, person, nowMs, choose, freshMassMg })
    if (deed === null) return
    if (isAskDeed(deed)) await this.#session.ask(person, deed)
    else {
      const kept = await this.#session.report(person, deed)
      if (kept.status === 'kept') this.reports += 1
    }
  }

  #newLink(): ListeningLink {
    const { oracle, origin, heard } = this.#parts
    return new ListeningLink(new SocketLink({ origin }), { oracle, screen: this.name, heard })
  }

  #newSession(): Session {
    const { room } = this.#parts
    return new Session({
      link: this.#link,
      timers: realTimers,
      chance: noPatience,
      store: this.#store,
      brain: { evolve, hashBoard },
      room,
      screen: 'hand',
      complain: (what, error) => {
        if (this.complaints.length < complaintsMax) {
          this.complaints.push(`${this.name}: ${what}: ${error}`)
        }
      },
    })
  }
}

/** The shortest wait between attempts, and the same for all six: they come back all at once. */
const noPatience: Chance = () => 0

const isAskDeed = (deed: Deed): deed is CommandOf<AskType> => isAsk(deed.type)
