// Keeps track of what this screen has already said: a call sounds once, a "now" again every ten seconds
// until it is seen, NOT LIVE every twenty while it lasts, and what was held back while a nest was open
// when the hands are free again. A screen calls `update` at every drawing and `saved` at every answer.

import { repeatMs } from './patterns.ts'
import type { AttentionPort } from './port.ts'
import { type Around, type CallChange, type Change, type Effect, effectOf } from './rule.ts'

/** A key names one call at one step of its ladder; the next step is another key and sounds anew. */
export type Call = { readonly key: string; readonly change: CallChange }

export type Moment = {
  readonly around: Around
  /** What waits to be seen by this person, and was not. */
  readonly calls: readonly Call[]
  readonly isNotLive: boolean
  readonly monoNowMs: number
}

type Standing = { readonly key: string; readonly change: Change }
type Due = Standing & { readonly effect: Effect }

/** Calls looked at; a view that lists more has gone wrong, and sounding for it would not mend it. */
export const callsMax = 100

const notLive: Standing = { key: 'not live', change: { type: 'notLive' } }

/** Of several at once only the first of these is heard. */
function rank({ change }: Standing): number {
  if (change.type === 'alert') return { now: 0, soon: 3, watch: 4 }[change.level]
  return change.type === 'asked' ? 1 : 2
}

/** An ask is said once, though it sounds as "now" does: it is asked of many at once. */
function againAfterMs({ change, effect }: Due): number {
  if (change.type === 'asked') return Number.POSITIVE_INFINITY
  return repeatMs[effect.sound ?? effect.vibration ?? 'watch'] ?? Number.POSITIVE_INFINITY
}

export class Attention {
  readonly #port: AttentionPort
  #around: Around = { holdsClaim: false, place: 'nursery', isDark: false }
  /** When each standing call was last given, by key. */
  #given: ReadonlyMap<string, number> = new Map()

  constructor(port: AttentionPort) {
    this.#port = port
  }

  update({ around, calls, isNotLive, monoNowMs }: Moment): void {
    this.#around = around
    this.#port.keepAwake(around.holdsClaim ? 'awake' : 'mayRest')
    const standing: readonly Standing[] = [
      ...(isNotLive ? [notLive] : []),
      ...calls.slice(0, callsMax),
    ]
    const due = this.#due(standing, monoNowMs)
    const [first] = due.toSorted((one, other) => rank(one) - rank(other))
    if (first) this.#give(first.effect)
    this.#remember(standing, due, monoNowMs)
  }

  /** The room has answered a record of this screen: it is on disk. */
  saved(): void {
    this.#give(effectOf({ type: 'saved' }, this.#around))
  }

  #due(standing: readonly Standing[], monoNowMs: number): readonly Due[] {
    return standing
      .map((one) => ({ ...one, effect: effectOf(one.change, this.#around) }))
      .filter(({ effect }) => effect.sound !== null || effect.vibration !== null)
      .filter((one) => {
        const givenMs = this.#given.get(one.key)
        return givenMs === undefined || monoNowMs - givenMs >= againAfterMs(one)
      })
  }

  /** What no longer stands is forgotten, so that it sounds when it comes back. */
  #remember(standing: readonly Standing[], due: readonly Due[], monoNowMs: number): void {
    const dueKeys = new Set(due.map(({ key }) => key))
    this.#given = new Map(
      standing.flatMap(({ key }) => {
        const givenMs = dueKeys.has(key) ? monoNowMs : this.#given.get(key)
        return givenMs === undefined ? [] : [[key, givenMs]]
      }),
    )
  }

  #give({ sound, vibration }: Effect): void {
    if (sound !== null) this.#port.sound(sound)
    if (vibration !== null) this.#port.vibrate(vibration)
  }
}
