// The long room: 60 nests in 10 incubators and ten people, as full as a room gets. Its broods are written
// down by incubator, so many nests of a kind, and labelled in order.

import type { InstantMs } from '../shared/base/values.ts'
import { alike, inIncubator, quarantinedIn, unmarked } from './broods.ts'
import type { Brood, DemoBird, DemoRoom, Step } from './demoRoom.ts'
import { bird, incubator, minutes, nest, person } from './ids.ts'
import { longRoomPeople } from './longRoomPeople.ts'

const rafael = person(2)
const tariq = person(4)
const solvei = person(5)
const emil = person(6)
const zofia = person(7)
const obi = person(8)
const lucia = person(9)
const hana = person(10)

const playedMin = 75
const breakAtMin = 60

/** Without I and O, which are read as figures. */
const letters = [...'ABCDEFGHJKLMNPQRSTUVWXYZ']

/** A to Z, then AA to AZ, BA to BZ. */
const labels: readonly string[] = ['', 'A', 'B'].flatMap((first) =>
  letters.map((letter) => first + letter),
)

/** So many nests of one species, each of so many birds. */
type Kind = {
  readonly incubator: number
  readonly nests: number
  readonly species: string
  readonly birds: readonly DemoBird[]
}

const kinds: readonly Kind[] = [
  { incubator: 1, nests: 6, species: 'House finch', birds: alike(4, 'finchHatchling', 9) },
  { incubator: 2, nests: 4, species: 'House finch', birds: alike(3, 'finchNestling', 15) },
  { incubator: 2, nests: 3, species: 'American goldfinch', birds: alike(3, 'goldfinch', 8) },
  { incubator: 3, nests: 4, species: 'House sparrow', birds: alike(3, 'sparrow', 13) },
  { incubator: 3, nests: 2, species: 'Song sparrow', birds: alike(2, 'sparrowFledgling', 18) },
  { incubator: 4, nests: 3, species: 'Carolina wren', birds: alike(3, 'wren', 9) },
  { incubator: 4, nests: 3, species: 'Eastern bluebird', birds: alike(3, 'bluebird', 16) },
  { incubator: 5, nests: 5, species: 'American robin', birds: alike(2, 'robin', 42) },
  { incubator: 5, nests: 2, species: 'Cedar waxwing', birds: alike(2, 'waxwing', 18) },
  { incubator: 6, nests: 4, species: 'Northern mockingbird', birds: alike(2, 'mockingbird', 25) },
  { incubator: 6, nests: 2, species: 'Northern cardinal', birds: alike(2, 'cardinal', 24) },
  { incubator: 7, nests: 5, species: 'European starling', birds: alike(2, 'starling', 45) },
  { incubator: 7, nests: 2, species: 'Chimney swift', birds: unmarked(alike(3, 'swift', 14)) },
  {
    ...{ incubator: 7, nests: 1, species: 'Ruby-throated hummingbird' },
    birds: alike(2, 'hummingbird', 2),
  },
  { incubator: 8, nests: 3, species: 'Mourning dove', birds: alike(2, 'doveSmall', 18) },
  { incubator: 8, nests: 3, species: 'Mourning dove', birds: alike(2, 'dove', 30) },
  { incubator: 9, nests: 2, species: 'Mourning dove', birds: alike(2, 'doveOlder', 45) },
  { incubator: 9, nests: 3, species: 'Rock pigeon', birds: alike(1, 'pigeon', 100) },
]

const labelAt = (at: number): string => labels[at] ?? `N${at + 1}`

const healthy: readonly Brood[] = kinds
  .flatMap((kind) => Array.from({ length: kind.nests }, () => kind))
  .flatMap(({ incubator: at, species, birds }, order) =>
    inIncubator(at, [{ label: labelAt(order), species, birds }]),
  )

const broods: readonly Brood[] = [
  ...healthy,
  quarantinedIn(10, {
    ...{ label: labelAt(healthy.length), species: 'House finch' },
    birds: alike(2, 'finchNestling', 14),
  }),
  quarantinedIn(10, {
    ...{ label: labelAt(healthy.length + 1), species: 'House sparrow' },
    birds: alike(2, 'sparrow', 12),
  }),
]

const box: Step = {
  ...{ afterMs: minutes(66), by: rafael },
  command: {
    ...{ type: 'BoxArrived', v: 1, label: labelAt(broods.length), incubator: incubator(6) },
    ...{ howMany: 4, size: 'small', private: { note: 'Four in a flower pot, mother not seen.' } },
  },
}

const aside = (foundedAtMs: InstantMs): readonly Step[] => [
  {
    ...{ afterMs: minutes(50), by: rafael },
    command: {
      ...{ type: 'SetHold', v: 1, nest: nest(49), reason: 'slow crop' },
      lookAgainAtMs: foundedAtMs + minutes(95),
    },
  },
  {
    ...{ afterMs: minutes(61), by: tariq },
    command: {
      ...{ type: 'HoldBird', v: 1, bird: bird(3), reason: 'warm first' },
      lookAgainAtMs: foundedAtMs + minutes(90),
    },
  },
  {
    ...{ afterMs: minutes(breakAtMin), by: lucia },
    command: { type: 'BeginBreak', v: 1, backAtMs: foundedAtMs + minutes(breakAtMin + 20) },
  },
]

export const longRoom: DemoRoom = {
  id: 'pennywren-long',
  title: 'Pennywren long room',
  playedMin,
  people: longRoomPeople,
  onShift: [rafael, tariq, solvei, emil, zofia, obi, lucia, hana],
  incubators: 10,
  broods,
  workers: [
    { person: tariq, fromMin: 2, untilMin: playedMin + 15 },
    { person: solvei, fromMin: 3, untilMin: playedMin + 15 },
    { person: emil, fromMin: 2, untilMin: playedMin - 14 },
    { person: zofia, fromMin: 3, untilMin: playedMin - 12 },
    { person: obi, fromMin: 4, untilMin: playedMin + 15 },
    { person: lucia, fromMin: 4, untilMin: breakAtMin },
    { person: hana, fromMin: 5, untilMin: playedMin + 15 },
  ],
  script: (foundedAtMs) => [box, ...aside(foundedAtMs)],
}
