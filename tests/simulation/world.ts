// One simulated world: a room with its server, devices, people, network and trouble, from one seed.
// Put together here and run from before the first feed to after the last, day by day; the nights
// between go by with the handhelds switched off.
//
//   06:30 set up   06:40 people   07:00 trouble … calm … trouble … calm … 21:10 calm   21:50 the end

import type { Complain } from '../../client/session/ports.ts'
import type { Log } from '../../server/log/log.ts'
import { realBrain } from '../../server/room/realBrain.ts'
import { minuteMs, type PersonId, secondMs } from '../../shared/base/values.ts'
import { Chance } from './chance.ts'
import { type DeviceWorld, Handheld, Wall } from './device.ts'
import { TrustingDoorkeeper } from './doors.ts'
import { DurableJournal } from './durableJournal.ts'
import { EventQueue } from './eventQueue.ts'
import { Examiner, type Violation } from './examiner.ts'
import { type FaultCounts, Faults } from './faultClasses.ts'
import { firstMorning, founderId, nestsAtFirst } from './firstMorning.ts'
import { Network } from './network.ts'
import { Person } from './person.ts'
import { noBug, type PlantedBug } from './plantedBugs.ts'
import { Reference } from './reference.ts'
import type { Screen } from './screen.ts'
import { ServerKeeper } from './serverKeeper.ts'
import { roomName, SimulatedServer } from './simulatedServer.ts'
import { Trace } from './trace.ts'
import { Troubles } from './trouble.ts'
import { Witness } from './witness.ts'

export type WorldWishes = {
  readonly seed: number
  readonly days: number
  readonly handhelds: number
  readonly walls: number
  readonly bug?: PlantedBug
  /** The only day ends with the calm after this hour; left out, it is a whole one. */
  readonly untilHour?: number
}

export type WorldOutcome = {
  readonly seed: number
  readonly steps: number
  readonly faults: FaultCounts
  readonly violations: readonly Violation[]
  readonly traceHash: string
  /** The last lines before the end, for whoever looks at a violation. */
  readonly tail: readonly string[]
}

const zone = 'America/Los_Angeles'
const beginsAtMs = Date.parse('2026-05-16T06:30:00-07:00')
const midnightMs = Date.parse('2026-05-16T00:00:00-07:00')
const opensMinute = 7 * 60
const closesMinute = 21 * 60

/** Minutes of the day at which trouble stops for a while, and the day's last. */
const calmMinutes = [9 * 60 + 10, 12 * 60 + 40, 16 * 60 + 20, 19 * 60] as const
const lastCalmMinute = 21 * 60 + 10
const dayEndsMinute = 21 * 60 + 50
const nextDayMinute = 24 * 60 + 6 * 60 + 30

/** People put down what they have in hand, and a room that could not write opens anew. */
const settleMs = 4 * minuteMs
const calmWithinMs = 10 * secondMs

export class World {
  readonly #wishes: WorldWishes
  readonly #queue = new EventQueue(beginsAtMs)
  readonly #trace = new Trace()
  readonly #chance: Chance
  readonly #faults: Faults
  readonly #witness: Witness
  readonly #network: Network
  readonly #doorkeeper = new TrustingDoorkeeper()
  readonly #server: SimulatedServer
  readonly #reference = new Reference()
  readonly #keeper: ServerKeeper
  readonly #handhelds: readonly Handheld[]
  readonly #walls: readonly Wall[]
  readonly #people: readonly Person[]
  readonly #troubles: Troubles
  readonly #examiner: Examiner
  #isQuiet = false

  constructor(wishes: WorldWishes) {
    this.#wishes = wishes
    this.#chance = new Chance(wishes.seed)
    this.#faults = new Faults(this.#chance)
    this.#witness = new Witness(this.#queue)
    this.#network = new Network({ ...this.#parts, wiretap: this.#witness })
    const witness = this.#witness
    this.#keeper = new ServerKeeper({ ...this.#parts, witness, reference: this.#reference })
    this.#server = this.#makeServer()
    const deviceWorld = this.#deviceWorld()
    this.#handhelds = named('d', wishes.handhelds).map((name) => new Handheld(name, deviceWorld))
    this.#walls = named('wall', wishes.walls).map((name) => new Wall(name, deviceWorld))
    for (const { name, token } of this.#handhelds) this.#doorkeeper.pair(token, name)
    this.#people = this.#makePeople()
    const [handhelds, walls] = [this.#handhelds, this.#walls]
    this.#troubles = new Troubles({
      ...this.#parts,
      network: this.#network,
      server: this.#server,
      doorkeeper: this.#doorkeeper,
      handhelds,
      walls,
    })
    this.#examiner = this.#makeExaminer([...this.#handhelds, ...this.#walls])
    this.#keeper.keep(this.#server, this.#examiner)
  }

  async run(): Promise<WorldOutcome> {
    await this.#foundRoom()
    this.#server.plant()
    for (const screen of [...this.#handhelds, ...this.#walls]) screen.load()
    for (const person of this.#people) person.begin()
    this.#troubles.begin()
    for (let day = 0; day < this.#wishes.days && !this.#examiner.isDone; day += 1) {
      await this.#day(day)
      if (day + 1 < this.#wishes.days) await this.#night(day)
    }
    return this.#outcome()
  }

  get #parts() {
    const [queue, chance, faults, trace] = [this.#queue, this.#chance, this.#faults, this.#trace]
    return { queue, chance, faults, trace }
  }

  async #day(day: number): Promise<void> {
    const { untilHour } = this.#wishes
    const lastMinute = untilHour === undefined ? lastCalmMinute : untilHour * 60
    const calms = [...calmMinutes.filter((minute) => minute < lastMinute), lastMinute]
    for (const minute of calms) {
      this.#faults.begin()
      this.#isQuiet = false
      await this.#until(day, minute)
      await this.#calm()
    }
    // The longest lease runs out meanwhile.
    if (untilHour === undefined) await this.#until(day, dayEndsMinute)
    if (!this.#examiner.isDone) this.#examiner.notCalm()
  }

  /** Trouble ends, people bring to an end what they have in hand, and then all must agree. */
  async #calm(): Promise<void> {
    this.#faults.end()
    this.#isQuiet = true
    this.#troubles.mendAll()
    if (this.#server.state === 'down') this.#keeper.startLater(secondMs)
    await this.#pass(settleMs)
    const untilMs = this.#queue.nowMs + calmWithinMs
    while (this.#queue.nowMs < untilMs && !this.#examiner.isDone) {
      if (this.#examiner.isCalm()) return
      await this.#pass(secondMs)
    }
    if (!this.#examiner.isDone) this.#examiner.notCalm()
  }

  async #night(day: number): Promise<void> {
    for (const device of this.#handhelds) device.switchOff('untold')
    await this.#until(day, nextDayMinute)
    for (const device of this.#handhelds) device.load()
  }

  #until(day: number, minute: number): Promise<void> {
    return this.#pass(midnightMs + (day * 24 * 60 + minute) * minuteMs - this.#queue.nowMs)
  }

  async #pass(lengthMs: number): Promise<void> {
    const untilMs = this.#queue.nowMs + lengthMs
    await this.#queue.settled()
    while (!this.#examiner.isDone) {
      const event = await this.#queue.step(untilMs)
      if (event === null) return
      this.#examiner.step()
    }
  }

  /** Before anything goes wrong: the room, its people, its birds. */
  async #foundRoom(): Promise<void> {
    this.#faults.end()
    this.#server.start({
      season: '2026',
      title: 'Meadow Lane nursery',
      zone,
      opensMinute,
      closesMinute,
    })
    await this.#pass(secondMs)
    const { room } = this.#server
    if (room === null) throw new Error('the simulated room could not be founded')
    void room.record(({ keep }) => [
      {
        ...{ type: 'PersonAdded', v: 1, person: founderId, role: 'permitHolder' },
        signOffs: ['gapeSyringe', 'insectTweezers', 'cropTube', 'fluids'],
        name: keep({ name: 'Person 1' }),
      },
    ])
    await this.#pass(secondMs)
    for (const [at, body] of firstMorning(this.#wishes.handhelds, room.nowMs()).entries()) {
      const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
      void room.take({ lane: 'd99', n: at + 1, by: founderId, device: 'd99', timing, body })
      await this.#pass(secondMs)
    }
    const nests = Object.keys(room.durable.board.nests).length
    if (nests < nestsAtFirst && !this.#examiner.isDone) throw new Error('a nest is missing')
  }

  #makeServer(): SimulatedServer {
    const { bug = noBug } = this.#wishes
    const world = { network: this.#network, witness: this.#witness, doorkeeper: this.#doorkeeper }
    return new SimulatedServer({ ...this.#parts, ...world, bug, log: this.#log() }, this.#keeper)
  }

  #deviceWorld(): DeviceWorld {
    const { bug = noBug } = this.#wishes
    const { evolve, hashBoard } = realBrain
    const brain = { evolve, hashBoard }
    return {
      ...this.#parts,
      ...{ network: this.#network, room: roomName, complain: this.#complain() },
      brain: bug.screenBrain?.(brain) ?? brain,
      seen: (screen, by) => this.#witness.shown(screen, by),
      storeOf: (store) => bug.store?.(store) ?? store,
      timersOf: (timers) => bug.deviceTimers?.(timers) ?? timers,
      linkOf: (link) => bug.link?.(link) ?? link,
      witness: this.#witness,
    }
  }

  #makePeople(): readonly Person[] {
    const world = {
      ...this.#parts,
      minuteOfDay: () => ((this.#queue.nowMs - midnightMs) / minuteMs) % (24 * 60),
      isQuiet: () => this.#isQuiet,
    }
    const [first] = this.#handhelds
    if (first === undefined) throw new Error('a room has at least one handheld')
    const founder = new Person(founderId, first, world)
    const helpers = this.#handhelds.map(
      (device, at) => new Person(`p${at + 2}` as PersonId, device, world),
    )
    return [founder, ...helpers]
  }

  #makeExaminer(screens: readonly Screen[]): Examiner {
    const { bug = noBug } = this.#wishes
    return new Examiner({
      ...{ queue: this.#queue, server: this.#server, network: this.#network },
      ...{ handhelds: this.#handhelds, screens, reference: this.#reference },
      ...{ journal: new DurableJournal(), witness: this.#witness },
      serverBrain: bug.serverBrain?.(realBrain) ?? realBrain,
      damagedFiles: () => this.#keeper.damagedFiles,
    })
  }

  /** What the program itself says goes into the trace: it must be the same every time too. */
  #log(): Log {
    const line = (fields: object, what: string) =>
      this.#trace.add(this.#queue.nowMs, `log: ${what}`, textOf(fields))
    return { info: line, warn: line, error: line }
  }

  #complain(): Complain {
    return (what, error) => this.#trace.add(this.#queue.nowMs, `complaint: ${what}`, String(error))
  }

  #outcome(): WorldOutcome {
    return {
      seed: this.#wishes.seed,
      steps: this.#queue.steps,
      faults: this.#faults.counts,
      violations: this.#examiner.violations,
      traceHash: this.#trace.hash,
      tail: this.#trace.tail(400),
    }
  }
}

const textOf = (fields: object): string =>
  JSON.stringify(fields, (_key, value) => (value instanceof Error ? String(value) : value))

const named = (letter: string, count: number): readonly string[] =>
  Array.from({ length: count }, (_, at) => `${letter}${at + 1}`)

export const runWorld = (wishes: WorldWishes): Promise<WorldOutcome> => new World(wishes).run()
