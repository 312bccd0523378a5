// One invented person's handheld: the real session over the real socket, an outbox that outlives a
// reload, and a link that can be lost. Counts what goes wrong, so that the demo can say so at its end.

import type { Link, LinkHandlers } from '../../client/session/ports.ts'
import { realBrain } from '../../client/session/realBrain.ts'
import { realTimers } from '../../client/session/realTimers.ts'
import { Session } from '../../client/session/session.ts'
import { SocketLink } from '../../client/session/socketLink.ts'
import { MemoryOutbox } from '../../client/stores/memoryOutbox.ts'
import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import type { Board } from '../../shared/board/state.ts'
import type { FromScreen } from '../../shared/wire/frames.ts'

/** A link that is refused while the person stands where no signal reaches. */
class LosableLink implements Link {
  readonly #link: SocketLink
  #handlers: LinkHandlers | null = null
  #isLost = false

  constructor(origin: string) {
    this.#link = new SocketLink({ origin })
  }

  connect(handlers: LinkHandlers): void {
    this.#handlers = handlers
    if (this.#isLost) handlers.closed()
    else this.#link.connect(handlers)
  }

  send(frame: FromScreen): void {
    this.#link.send(frame)
  }

  close(): void {
    this.#link.close()
  }

  setLost(isLost: boolean): void {
    this.#isLost = isLost
    if (!isLost) return
    this.#link.close()
    this.#handlers?.closed()
  }
}

export type HandsetPlace = {
  readonly origin: string
  readonly room: string
  readonly person: PersonId
  readonly token: string
}

/** More sentences say nothing more. */
const complaintsMax = 20

export class Handset {
  readonly #place: HandsetPlace
  readonly #store = new MemoryOutbox()
  readonly faults: string[] = []
  #link: LosableLink
  #session: Session

  constructor(place: HandsetPlace) {
    this.#place = place
    this.#link = new LosableLink(place.origin)
    this.#session = this.#newSession()
  }

  async start(): Promise<void> {
    await this.#store.write({ token: this.#place.token })
    await this.#session.start()
  }

  /** As a page closed in a pocket: what it noted stays on the device. */
  close(): void {
    this.#session.stop()
  }

  async reopen(): Promise<void> {
    this.#link = new LosableLink(this.#place.origin)
    this.#session = this.#newSession()
    await this.#session.start()
  }

  setLost(isLost: boolean): void {
    this.#link.setLost(isLost)
  }

  async signIn(pin: string): Promise<boolean> {
    const { status } = await this.#session.signIn(this.#place.person, pin)
    return status === 'done'
  }

  get isOnShift(): boolean {
    const shift = this.#session.snapshot().board?.people[this.#place.person]?.shift
    return shift === 'on' || shift === 'break'
  }

  get canAsk(): boolean {
    return this.#session.snapshot().canAsk
  }

  /** The room as this screen knows it; null before it was welcomed. */
  see(): { readonly board: Board; readonly nowMs: InstantMs } | null {
    const { board } = this.#session.snapshot()
    const nowMs = this.#session.roomNowMs()
    return board === null || nowMs === null ? null : { board, nowMs }
  }

  monoNowMs(): number {
    return this.#session.monoNowMs()
  }

  /** Whether it was granted. */
  async ask(command: CommandOf<AskType>): Promise<boolean> {
    const outcome = await this.#session.ask(this.#place.person, command)
    if (outcome.status === 'fault') this.#note(`${command.type}: ${outcome.code}`)
    return outcome.status === 'applied'
  }

  async report(command: CommandOf<ReportType>, startedMonoMs?: number): Promise<void> {
    const when = startedMonoMs === undefined ? {} : { startedMonoMs }
    const outcome = await this.#session.report(this.#place.person, command, when)
    if (outcome.status !== 'kept') this.#note(`${command.type}: ${outcome.status}`)
  }

  get isDrained(): boolean {
    const { pending, stuck } = this.#session.snapshot()
    return pending.length === 0 && stuck.length === 0
  }

  get version(): number {
    return this.#session.snapshot().version
  }

  get hash(): number | null {
    const { board } = this.#session.snapshot()
    return board === null ? null : hashBoard(board)
  }

  #note(fault: string): void {
    if (this.faults.length < complaintsMax) this.faults.push(`${this.#place.person} ${fault}`)
  }

  #newSession(): Session {
    return new Session({
      link: this.#link,
      timers: realTimers,
      chance: Math.random,
      store: this.#store,
      brain: realBrain,
      room: this.#place.room,
      screen: 'hand',
      complain: (what, error) => this.#note(`${what}: ${error}`),
    })
  }
}
