// The invented people of one demo room, as one: paired, signed in, at work, and home again. Used by
// demo.ts; a server that is already serving the room is all it needs.

import { setTimeout } from 'node:timers/promises'
import type { PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { claimOf } from '../../shared/rules/decision.ts'
import { drawFrom } from './chance.ts'
import { Crops } from './crops.ts'
import { Feeder } from './feeder.ts'
import { habitOf } from './habits.ts'
import { Handset } from './handset.ts'

export type SignIn = { readonly person: PersonId; readonly pin: string }
export type CrewPlace = {
  readonly origin: string
  readonly room: string
  readonly speed: number
  readonly seed: number
}
export type Tally = {
  readonly feeds: number
  readonly doubleFeeds: number
  readonly missed: number
  readonly faults: readonly string[]
}

/** Real time: a server that does not let somebody in by then will not. */
const enterMaxMs = 20_000
const drainMaxMs = 20_000
const lookAgainMs = 50

/** About as many hands as such a room has on a busy day: one for eight nests, and one more. */
const handsFor = (nests: number): number => Math.ceil(nests / 8) + 1

/** Whoever has a nest in hand stays, and then those who may do most. */
function whoStays(board: Board): readonly PersonId[] {
  const has = (person: PersonId) => (claimOf(board, person) ? 1 : 0)
  const people = Object.values(board.people).filter(({ isRemoved }) => !isRemoved)
  return people
    .sort((a, b) => has(b.id) - has(a.id) || b.signOffs.length - a.signOffs.length)
    .slice(0, handsFor(Object.keys(board.nests).length))
    .map(({ id }) => id)
}

export class Crew {
  readonly #place: CrewPlace
  readonly #crops = new Crops()
  readonly #feeders: Feeder[] = []
  readonly #faults: string[] = []

  constructor(place: CrewPlace) {
    this.#place = place
  }

  /** Everybody comes in, one after the other: the server works out one PIN at a time. */
  async enter(people: readonly SignIn[]): Promise<void> {
    const handsets: Handset[] = []
    for (const one of people) handsets.push(await this.#signedIn(one))
    const board = handsets[0]?.see()?.board
    if (!board) return
    this.#crops.learn(board)
    const staying = whoStays(board)
    for (const [at, { person }] of people.entries()) {
      const handset = handsets[at]
      if (!handset) continue
      if (!staying.includes(person)) await this.#goesHome(handset)
      else await this.#begins(handset, person, staying.indexOf(person))
    }
  }

  async #signedIn(one: SignIn): Promise<Handset> {
    const { origin, room } = this.#place
    const token = await pairedToken(origin, room)
    const handset = new Handset({ origin, room, person: one.person, token })
    await handset.start()
    await this.#within(enterMaxMs, () => handset.canAsk, `${one.person} is not let in`)
    if (!(await handset.signIn(one.pin))) throw new Error(`${one.person} cannot sign in`)
    return handset
  }

  async #begins(handset: Handset, person: PersonId, at: number): Promise<void> {
    const { seed, speed } = this.#place
    await handset.ask({ type: 'BeginShift', v: 1 })
    const draw = drawFrom(seed * 1_000 + at)
    const parts = { person, handset, crops: this.#crops, draw, speed }
    this.#feeders.push(new Feeder({ ...parts, habit: habitOf(at) }))
  }

  /** Their shift is over: more hands than the room needs would only stand about. */
  async #goesHome(handset: Handset): Promise<void> {
    if (handset.isOnShift) await handset.ask({ type: 'EndShift', v: 1 })
    handset.close()
  }

  work(): void {
    for (const feeder of this.#feeders) {
      feeder.work().catch((error: unknown) => this.#faults.push(`${feeder.person}: ${error}`))
    }
  }

  /** Everybody stops, hands in what they noted, and the screens are compared. */
  async leave(): Promise<Tally> {
    for (const feeder of this.#feeders) feeder.end()
    const isHome = () => this.#feeders.every(({ isDone }) => isDone)
    await this.#within(drainMaxMs, isHome, 'somebody never came to an end')
    const isHandedIn = () => this.#feeders.every(({ handset }) => handset.isDrained)
    await this.#within(drainMaxMs, isHandedIn, 'a handheld keeps a record the room never took')
    const handsets = this.#feeders.map(({ handset }) => handset)
    const isLevel = () => new Set(handsets.map(({ version }) => version)).size === 1
    await this.#within(drainMaxMs, isLevel, 'the screens do not come to one version')
    if (new Set(handsets.map(({ hash }) => hash)).size > 1) {
      this.#faults.push('the screens show different boards')
    }
    for (const handset of handsets) handset.close()
    const { feeds, doubleFeeds, missed } = this.#crops
    const faults = [...this.#faults, ...handsets.flatMap((handset) => handset.faults)]
    return { feeds, doubleFeeds, missed, faults }
  }

  async #within(mostMs: number, isSo: () => boolean, otherwise: string): Promise<void> {
    const startedMs = performance.now()
    while (!isSo() && performance.now() - startedMs < mostMs) await setTimeout(lookAgainMs)
    if (!isSo()) this.#faults.push(otherwise)
  }
}

async function pairedToken(origin: string, room: string): Promise<string> {
  const response = await fetch(`${origin}/api/pair`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin },
    body: JSON.stringify({ room }),
  })
  const body: unknown = await response.json()
  const isToken = typeof body === 'object' && body !== null && 'token' in body
  if (!response.ok || !isToken) throw new Error(`a handheld of ${room} cannot be paired`)
  return String(body.token)
}
