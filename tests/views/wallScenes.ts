// Rooms as the wall may have to show them, one of each kind: made from boards where a board can say it,
// and changed by hand where the point is a state that is rare. For looking at and for measuring.

import { minuteMs, type NestId, type PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { WallAlert } from '../../shared/views/wallAlerts.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { type WallView, wallView } from '../../shared/views/wallView.ts'
import type { HouseCondition } from '../../shared/wire/frames.ts'
import {
  boardOf,
  busyRoom,
  calmRoom,
  jammedRoom,
  type NestLike,
  names,
  nowMs,
  wideRoom,
} from '../support/boards.ts'

export type Scene = {
  readonly view: WallView
  readonly nowMs: number
  readonly isLost: boolean
  readonly house: readonly HouseCondition[]
  readonly turn: number
}

const scene = (board: Board, more: Partial<Scene> = {}): Scene => {
  const atMs = more.nowMs ?? nowMs
  return {
    view: wallView(board, names, atMs),
    nowMs: atMs,
    isLost: false,
    house: [],
    turn: 0,
    ...more,
  }
}

/** The same view with some nests changed, by label. */
function changed(of: Scene, nests: Readonly<Record<string, Partial<WallNest>>>): Scene {
  const lanes = of.view.lanes.map((lane) => ({
    ...lane,
    nests: lane.nests.map((nest) => ({ ...nest, ...nests[nest.label] })),
  }))
  return { ...of, view: { ...of.view, lanes } }
}

const withAlerts = (of: Scene, alerts: readonly WallAlert[]): Scene => ({
  ...of,
  view: { ...of.view, alerts },
})

const alert = (more: Partial<WallAlert>): WallAlert => ({
  key: `${more.kind} ${more.label}`,
  level: 'now',
  kind: 'help',
  nest: 'n1' as NestId,
  label: 'T',
  incubatorLabel: '3',
  sinceMs: nowMs - 2 * minuteMs,
  waits: null,
  taken: null,
  birds: 0,
  ...more,
})

const help = alert({ kind: 'help', label: 'T', incubatorLabel: '3', waits: 'Ivo' })
const fluids = alert({ kind: 'fluids', label: 'AK', incubatorLabel: '6', taken: { name: 'Priya' } })
const short = alert({ kind: 'short', label: 'D', incubatorLabel: '1', birds: 2 })
const twice = alert({ kind: 'fedTwice', level: 'soon', label: 'Q', incubatorLabel: '4' })
const look = alert({ kind: 'lookAgain', level: 'soon', label: 'P', incubatorLabel: '3' })

const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'
const letter = (at: number): string => letters[at % letters.length] ?? ''
const label = (at: number): string =>
  at < letters.length ? letter(at) : `${letter(Math.floor(at / letters.length) - 1)}${letter(at)}`

/** So many nests, `perLane` to an incubator. */
const room = (
  nests: number,
  perLane: number,
  like: (at: number, label: string) => Partial<NestLike>,
): Board =>
  boardOf(
    Array.from({ length: nests }, (_, at) => ({
      label: label(at),
      incubator: 1 + Math.floor(at / perLane),
      fedMinutesAgo: 1 + ((at * 7) % 26),
      ...like(at, label(at)),
    })),
  )

const ask = (name: string) => ({ person: 'p9' as PersonId, name })

const behind24 = room(24, 4, (at) => ({
  fedMinutesAgo: at % 4 < 2 ? 33 + ((at * 5) % 15) : 1 + ((at * 7) % 26),
  ...(at % 8 === 3 ? { claimedBy: at % 7 } : {}),
}))
const fourLate = room(24, 4, (at) => (at >= 8 && at < 12 ? { fedMinutesAgo: 35 + at } : {}))
const twoHands = room(24, 4, (at) => (at < 8 && at % 2 === 0 ? { claimedBy: at / 2 } : {}))
const crowdedHands = room(24, 4, (at) =>
  at < 7 ? { claimedBy: at, claimedMinutesAgo: 3 + at } : {},
)
const fourteen = room(56, 4, (at) => ({ fedMinutesAgo: (at * 11) % 36 }))
const twelve = room(60, 5, (at) => ({
  fedMinutesAgo: 1 + ((at * 11) % 33),
  ...(at % 15 === 4 ? { claimedBy: at % 7 } : {}),
}))
const rare = room(24, 4, (at, name) => ({
  ...(name === 'B' ? { doubtOf: 5, fedMinutesAgo: 42 } : {}),
  ...(name === 'F' ? { doubtOf: 6, fedMinutesAgo: 34, doubtMinutesAgo: 3 } : {}),
  ...(name === 'G' ? { doubtOf: 2, fedMinutesAgo: 12 } : {}),
  ...(name === 'J' || name === 'K' ? { settling: true as const } : {}),
  ...(name === 'P' ? { hold: 'crop full' } : {}),
  ...(name === 'S' ? { isQuarantined: true as const, fedMinutesAgo: 20 } : {}),
  ...(name === 'D' ? { claimedBy: 0 } : {}),
  ...(name === 'L' ? { claimedBy: 3, claimedMinutesAgo: 11 } : {}),
  ...(at === 20 ? { fedMinutesAgo: 28 } : {}),
}))
const clock = (hour: number, minute: number) => Date.UTC(2026, 5, 13, hour - 1, minute)
const evening = room(24, 4, (at) => ({
  fedMinutesAgo: -616 + ((at * 7) % 36),
  ...(at === 5 || at === 22 ? { claimedBy: at % 7, claimedMinutesAgo: -622 } : {}),
}))
const evening60 = room(60, 6, (at) => ({
  fedMinutesAgo: -612 + ((at * 11) % 34),
  ...(at % 11 === 5 ? { claimedBy: at % 7, claimedMinutesAgo: -624 } : {}),
}))
const morning = room(24, 4, (at) => ({
  fedMinutesAgo: at % 3 === 0 ? 200 : 700,
  ...(at % 9 === 4 ? { claimedBy: at % 7, claimedMinutesAgo: 199 } : {}),
}))

const trouble60 = changed(scene(busyRoom), {
  T: { call: 'help' },
  AK: { call: 'fluids' },
  AV: { offer: ask('Saba') },
})
const nobodyHere = (of: Scene): Scene => ({
  ...of,
  view: { ...of.view, away: [], counts: { ...of.view.counts, here: 0, free: 0 } },
})

/** Every scene by name. */
export const scenes: Readonly<Record<string, Scene>> = {
  calm24: scene(calmRoom),
  behind24: scene(behind24),
  trouble60: withAlerts(trouble60, [help, fluids]),
  late60: scene(busyRoom),
  jammed60: scene(jammedRoom),
  twelve: scene(twelve),
  fourteen: scene(fourteen),
  fifteen: scene(room(60, 4, (at) => ({ fedMinutesAgo: (at * 11) % 30 }))),
  wide84: scene(wideRoom),
  fourLate: scene(fourLate),
  twoHands: changed(scene(twoHands), { H: { offer: ask('Saba') } }),
  crowdedHands: scene(crowdedHands),
  rare: withAlerts(
    changed(scene(rare), { D: { short: 2 }, L: { call: 'fluids' }, Q: { isFedTwice: true } }),
    [short, twice, look],
  ),
  rareSecondPage: withAlerts(scene(rare, { turn: 1 }), [help, short, twice, look]),
  watch: withAlerts(scene(calmRoom), [twice]),
  notSaved: scene(calmRoom, { house: [{ type: 'journalFailing', sinceMs: nowMs - minuteMs }] }),
  opening24: scene(morning, { nowMs: clock(7, 6) }),
  lastRound24: scene(evening, { nowMs: clock(20, 48) }),
  lastRound60: scene(evening60, { nowMs: clock(20, 50) }),
  nightHelp: withAlerts(scene(evening, { nowMs: clock(20, 48) }), [{ ...help, waits: null }]),
  lightsOut60: scene(busyRoom, { nowMs: clock(21, 20) }),
  dark: nobodyHere(scene(calmRoom, { nowMs: clock(23, 10) })),
  lost24: scene(calmRoom, { isLost: true }),
  lost60: { ...withAlerts(trouble60, [help, fluids]), isLost: true },
  lostNight: scene(evening, { nowMs: clock(20, 48), isLost: true }),
}

const everyLike: Readonly<Record<string, Partial<NestLike>>> = {
  A: { fedMinutesAgo: 20 },
  E: { fedMinutesAgo: 28 },
  J: { fedMinutesAgo: 30 },
  N: { fedMinutesAgo: 34 },
  P: { fedMinutesAgo: 12, doubtOf: 5 },
  F: { fedMinutesAgo: 44 },
  S: { fedMinutesAgo: 33, doubtOf: 5 },
  W: { claimedBy: 0 },
  D: { hold: 'crop full' },
  H: { settling: true },
  U: { fedMinutesAgo: 16, isQuarantined: true },
}
const every = changed(scene(room(24, 4, (_, name) => everyLike[name] ?? { fedMinutesAgo: 2 })), {
  R: { offer: ask('Saba') },
  M: { state: { type: 'unplanned' } },
})

/** Each state of a nest once, by the label of the nest that is in it. */
export const everyState = { ...every, view: { ...every.view, alerts: [] } }
export const stateLabels = {
  fed: 'A',
  soon: 'E',
  due: 'J',
  late: 'N',
  late10: 'F',
  claimed: 'W',
  offered: 'R',
  held: 'D',
  settling: 'H',
  unplanned: 'M',
  quarantined: 'U',
  doubtFed: 'P',
  doubtLate: 'S',
} as const

/** Each mark once, on nests that somebody has. */
export const everyMark = changed(
  scene(room(24, 4, (at) => (at % 4 === 0 ? { claimedBy: 1 } : { fedMinutesAgo: 2 }))),
  {
    A: { call: 'help' },
    E: { call: 'fluids' },
    J: { call: 'noDroppings' },
    N: { short: 1 },
    S: { isFedTwice: true },
  },
)
