// A simulated person at one device: looks at the screen now and then and does what its board suggests,
// with human habits. Speaks to the room through the session alone. What a person does under a claim is
// `nestWork.ts`; what they do beside it is `sideJobs.ts`.

import type { ReportWhen } from '../../client/session/session.ts'
import { minuteMs, type PersonId, secondMs } from '../../shared/base/values.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import { nextNest } from '../../shared/plan/nextNest.ts'
import { answerCalls } from './calls.ts'
import type { Handheld } from './device.ts'
import { NestWork } from './nestWork.ts'
import { doSideJob } from './sideJobs.ts'
import type { PersonWorld, Sight, Worker } from './worker.ts'

/** What a person wanted to write down and has not been able to. */
type Unsaid = CommandOf<ReportType>

const lookMs = { least: 6 * secondMs, most: 30 * secondMs } as const
const restMs = { least: 2 * minuteMs, most: 6 * minuteMs } as const
const unsaidMax = 20
/** A finger that taps twice. */
const doubleTapShare = 0.04
/** An ask that never came back: the page was loaded anew, or the person gave up. */
const askMaxMs = 20 * secondMs
/** Of the questions about what they did, those a person takes up at one look. */
const answersDoubtShare = 0.25
const pin = '1357'

export class Person implements Worker {
  readonly id: PersonId
  readonly device: Handheld
  readonly world: PersonWorld
  readonly #work: NestWork
  readonly #arrivesMin: number
  readonly #breakMin: number
  readonly #leavesMin: number
  #unsaid: readonly Unsaid[] = []
  #askedAtMs = Number.NEGATIVE_INFINITY
  /** The server has said that it does not know them here. */
  #isShutOut = false

  constructor(id: PersonId, device: Handheld, world: PersonWorld) {
    const { chance } = world
    this.id = id
    this.device = device
    this.world = world
    this.#work = new NestWork(this)
    this.#arrivesMin = chance.between(405, 440)
    this.#breakMin = chance.between(660, 900)
    this.#leavesMin = chance.between(1245, 1265)
  }

  begin(): void {
    this.#lookLater(lookMs)
  }

  /** Asks, and says whether it was granted; a person does not ask twice at once, but by mistake. */
  async ask({ session }: Sight, body: CommandOf<AskType>): Promise<boolean> {
    this.#askedAtMs = this.world.queue.nowMs
    if (this.world.chance.happens(doubleTapShare)) void session.ask(this.id, body)
    const outcome = await session.ask(this.id, body)
    this.#askedAtMs = Number.NEGATIVE_INFINITY
    if (outcome.status === 'fault' && outcome.code === 'notSignedIn') this.#isShutOut = true
    return outcome.status === 'applied'
  }

  /** Writes it down; what the device does not take is tried again at a later look. */
  report(body: CommandOf<ReportType>, when: ReportWhen = {}): void {
    const { session } = this.device
    if (session === null) {
      this.#remember(body)
      return
    }
    const times = this.world.chance.happens(doubleTapShare) ? 2 : 1
    for (let tap = 0; tap < times; tap += 1) {
      void session.report(this.id, body, when).then((outcome) => {
        if (outcome.status !== 'kept' && tap === 0) this.#remember(body)
      })
    }
  }

  /** Runs after so long, whatever becomes of the device. */
  later(delayMs: number, what: string, run: () => void): void {
    this.world.queue.after(delayMs, `${this.id} ${what}`, run)
  }

  /** What the screen shows now; null while it shows nothing, or not this person. */
  sight(): Sight | null {
    const { session } = this.device
    if (session === null) return null
    const snapshot = session.snapshot()
    const nowMs = session.roomNowMs()
    const me = snapshot.board?.people[this.id]
    if (snapshot.board === null || me === undefined || nowMs === null) return null
    return { session, snapshot, board: snapshot.board, me, nowMs }
  }

  #remember(unsaid: Unsaid): void {
    this.#unsaid = [...this.#unsaid, unsaid].slice(-unsaidMax)
  }

  #look(): void {
    const sight = this.sight()
    if (sight !== null && !sight.me.isRemoved) this.#act(sight)
    const minute = this.world.minuteOfDay()
    const isHere = minute >= this.#arrivesMin - 10 && minute <= this.#leavesMin + 20
    this.#lookLater(isHere ? lookMs : restMs)
  }

  #lookLater({ least, most }: { readonly least: number; readonly most: number }): void {
    this.later(this.world.chance.between(least, most), 'looks', () => this.#look())
  }

  #act(sight: Sight): void {
    const unsaid = this.#unsaid
    this.#unsaid = []
    for (const body of unsaid) this.report(body)
    if (this.world.queue.nowMs - this.#askedAtMs < askMaxMs) return
    if (this.#comesBackIn(sight)) return
    if (this.#work.isBusy) return
    if (this.world.isQuiet()) this.#work.finish(sight)
    else if (!this.#isOnShift(sight)) this.#comeOrGo(sight)
    else if (!this.#work.takeUp(sight)) this.#free(sight)
  }

  /** Signs in again where that was lost, and then brings what the server would not take. */
  #comesBackIn({ session, snapshot }: Sight): boolean {
    const stuck = snapshot.stuck.filter(({ by }) => by === this.id)
    if (stuck.length === 0 && !this.#isShutOut) return false
    void session.signIn(this.id, pin).then(({ status }) => {
      if (status !== 'done') return
      this.#isShutOut = false
      for (const { id } of stuck) void session.retryStuck(id)
    })
    return true
  }

  #isOnShift({ me, snapshot }: Sight): boolean {
    const minute = this.world.minuteOfDay()
    const isTime = minute >= this.#arrivesMin && minute < this.#leavesMin
    const isBreak = minute >= this.#breakMin && minute < this.#breakMin + 30
    return me.shift === 'on' && isTime && !isBreak && snapshot.signedIn.includes(this.id)
  }

  /** Signing in and out, shifts and breaks, by the person's own plan of the day. */
  #comeOrGo(sight: Sight): void {
    const { me, session, snapshot } = sight
    const minute = this.world.minuteOfDay()
    const isTime = minute >= this.#arrivesMin && minute < this.#leavesMin
    const isIn = snapshot.signedIn.includes(this.id)
    if (!isTime) {
      if (me.shift !== 'off') this.#leave(sight)
      else if (isIn) void session.signOut(this.id)
    } else if (!isIn) void session.signIn(this.id, pin)
    else if (me.shift === 'off') void this.ask(sight, { type: 'BeginShift', v: 1 })
    else this.#pause(sight)
  }

  #pause(sight: Sight): void {
    const minute = this.world.minuteOfDay()
    const isBreak = minute >= this.#breakMin && minute < this.#breakMin + 30
    if (sight.me.shift === 'break') {
      if (!isBreak) void this.ask(sight, { type: 'EndBreak', v: 1 })
    } else if (!this.#work.takeUp(sight)) {
      const backAtMs = sight.nowMs + 30 * minuteMs
      void this.ask(sight, { type: 'BeginBreak', v: 1, backAtMs })
    }
  }

  #leave(sight: Sight): void {
    if (!this.#work.takeUp(sight)) void this.ask(sight, { type: 'EndShift', v: 1 })
  }

  /** Nothing in hand: a question that is theirs, something beside, or the next nest. */
  #free(sight: Sight): void {
    const { chance } = this.world
    if (this.#work.answerDoubt(sight, answersDoubtShare)) return
    if (answerCalls(this, sight)) return
    if (doSideJob(this, sight)) return
    const next = nextNest(sight.board, this.id, sight.nowMs)
    if (next !== null && chance.happens(0.8)) this.#work.claim(sight, next)
  }
}
