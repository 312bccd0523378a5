// Rooms made up at random as the wall sees them, and all that stands on it as boxes with a place: for
// what must hold of every room. Widths of words are a guess that is wider than the page's own font.

import fc from 'fast-check'
import type { TopKind } from '../../client/wall/frame.ts'
import { stopFor } from '../../client/wall/lateZone.ts'
import { lateNeedOf, type StripLayout, stripLayout } from '../../client/wall/strip.ts'
import type { Placed } from '../../client/wall/tokens.ts'
import {
  type IncubatorId,
  type InstantMs,
  minuteMs,
  type NestId,
  type PersonId,
} from '../../shared/base/values.ts'
import type { NestState } from '../../shared/views/nestState.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import type { WallView } from '../../shared/views/wallView.ts'

export const nowMs = Date.UTC(2026, 5, 13, 9, 24, 17)
export const widthOf = (text: string, { px }: { readonly px: number }): number =>
  text.length * px * 0.56
export const time = (atMs: number): string => new Date(atMs).toISOString().slice(11, 16)

const person = 'p1' as PersonId
const minutes = (n: number) => n * minuteMs

const states: fc.Arbitrary<NestState> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .integer({ min: 1, max: 60 })
      .map((at): NestState => ({ type: 'later', dueAtMs: nowMs + minutes(at) })),
  },
  {
    weight: 1,
    arbitrary: fc
      .integer({ min: 1, max: 4 })
      .map((at): NestState => ({ type: 'soon', dueAtMs: nowMs + minutes(at) })),
  },
  { weight: 1, arbitrary: fc.constant<NestState>({ type: 'due', dueAtMs: nowMs - 1_000 }) },
  {
    weight: 2,
    arbitrary: fc.integer({ min: 1, max: 130 }).map(
      (late): NestState => ({
        type: 'late',
        dueAtMs: nowMs - minutes(late),
        lateMs: minutes(late),
      }),
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({
        name: fc.constantFrom('Ivo', 'Mira', 'Bartholomea', null),
        minutes: fc.nat(29),
        stop: fc.constantFrom(null, 'held' as const),
      })
      .map(
        (held): NestState => ({
          type: 'claimed',
          person,
          name: held.name,
          sinceMs: nowMs - minutes(held.minutes),
          stop: held.stop,
        }),
      ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom('quiet', 'due').map(
      (lookAgain): NestState => ({
        type: 'held',
        reason: 'medicine first',
        lookAgainAtMs: nowMs,
        lookAgain: lookAgain as 'quiet' | 'due',
      }),
    ),
  },
  {
    weight: 1,
    arbitrary: fc
      .integer({ min: -5, max: 20 })
      .map((at): NestState => ({ type: 'settling', lookDueAtMs: nowMs + minutes(at) })),
  },
  { weight: 1, arbitrary: fc.constant<NestState>({ type: 'unplanned' }) },
)

const rare = <T>(value: T, otherwise: T) => fc.constantFrom(value, ...Array<T>(9).fill(otherwise))

const nests = fc.record({
  state: states,
  isQuarantined: rare(true, false),
  isDoubted: rare(true, false),
  isOffered: rare(true, false),
  short: rare(2, 0),
  isFedTwice: rare(true, false),
  call: rare<WallNest['call']>('fluids', null),
})

type NestLike = typeof nests extends fc.Arbitrary<infer T> ? T : never

const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'
const labelAt = (at: number): string =>
  at < letters.length
    ? letters.charAt(at)
    : letters.charAt(Math.floor(at / letters.length) - 1) + letters.charAt(at % letters.length)

function nestOf(like: NestLike, at: number, incubator: number): WallNest {
  const isFree = like.state.type === 'late' || like.state.type === 'due'
  const { isDoubted, isOffered, ...rest } = like
  return {
    ...rest,
    nest: `n${at}` as NestId,
    label: labelAt(at),
    incubator: `i${incubator}` as IncubatorId,
    incubatorLabel: String(incubator),
    birds: 4,
    heldBirds: 0,
    doubt: isDoubted
      ? { no: at, owner: person, name: 'Kofi', aboutAtMs: nowMs - minutes(14), isAsking: false }
      : null,
    offer: isOffered && isFree ? { person, name: 'Saba' } : null,
    isAsleep: false,
  }
}

/** A room of up to fifteen incubators with up to seven nests each; closing soon, or not. */
export const rooms: fc.Arbitrary<WallView> = fc
  .record({
    incubators: fc.array(fc.array(nests, { maxLength: 7 }), { minLength: 1, maxLength: 15 }),
    closesIn: fc.constantFrom<number | null>(null, null, null, 0, 3, 12, 25),
  })
  .map(({ incubators, closesIn }): WallView => {
    let at = 0
    const closesAtMs = closesIn === null ? null : nowMs + minutes(closesIn)
    const asleep = (nest: WallNest): WallNest => ({
      ...nest,
      isAsleep:
        closesAtMs !== null && nest.state.type === 'later' && nest.state.dueAtMs >= closesAtMs,
    })
    const lanes = incubators.map((likes, place) => ({
      incubator: `i${place + 1}` as IncubatorId,
      label: String(place + 1),
      nests: likes.map((like) => {
        at += 1
        return asleep(nestOf(like, at - 1, place + 1))
      }),
    }))
    const late = lanes.flatMap((lane) => lane.nests).filter(({ state }) => state.type === 'late')
    return {
      title: 'Nursery',
      hours: closesAtMs === null ? { type: 'alwaysOpen' } : { type: 'open', closesAtMs },
      opensAgainAtMs: closesAtMs === null ? null : nowMs + minutes(600),
      counts: { late: late.length, due: 0, here: 7, free: 2, doubts: 0 },
      away: [{ person, name: 'Wen', backAtMs: nowMs + minutes(16), isUnheard: false }],
      pace: { type: 'keepingUp' },
      alerts: [],
      lanes,
    }
  })

/** The layout of a view, its late zone as wide as this room needs. */
export function laidOut(
  view: WallView,
  top: TopKind = 'calm',
  atMs: InstantMs = nowMs,
): StripLayout {
  const lateStop = stopFor(lateNeedOf({ view, top, widthOf }))
  return stripLayout({ view, nowMs: atMs, time, widthOf, top, lateStop })
}

export type Box = { readonly what: string; readonly left: number; readonly right: number }

const boxesOf = (placed: readonly Placed[], anchor: number): readonly Box[] =>
  placed.map(({ left, width, parts }) => ({
    what: parts.map(({ text }) => text).join(' '),
    left: anchor + left,
    right: anchor + left + width,
  }))

/** Everything in each lane, by where it stands on the page. */
export function lanesAsBoxes({ frame, lanes }: StripLayout): readonly (readonly Box[])[] {
  return lanes.map((lane) => [
    ...boxesOf(lane.late, frame.lateRight),
    ...boxesOf(lane.hands, frame.lateRight),
    ...boxesOf(lane.coming, frame.nowX),
  ])
}
