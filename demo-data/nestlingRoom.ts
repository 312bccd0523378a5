// The nestling room: 24 nests, 60 birds, 6 incubators, nine people, a Saturday in the busy season. Finches
// stand apart from doves, pigeons and starlings (HRB2 p. 450, 750); the quarantined brood by itself.

import type { InstantMs } from '../shared/base/values.ts'
import { alike, except, inIncubator, quarantinedIn, unmarked } from './broods.ts'
import type { Brood, DemoRoom, Step } from './demoRoom.ts'
import { bird, incubator, minutes, nest, person } from './ids.ts'
import { nestlingPeople } from './nestlingPeople.ts'

const kwame = person(2)
const marit = person(3)
const jonas = person(4)
const priya = person(5)
const ayla = person(8)
const bram = person(9)

const playedMin = 100
const breakAtMin = 82

const broods: readonly Brood[] = [
  ...inIncubator(1, [
    { label: 'A', species: 'House finch', birds: alike(4, 'finchHatchling', 9) },
    { label: 'B', species: 'House finch', birds: alike(3, 'finchHatchling', 8) },
    { label: 'C', species: 'American goldfinch', birds: alike(3, 'goldfinch', 8) },
    { label: 'D', species: 'Song sparrow', birds: alike(3, 'sparrow', 12) },
  ]),
  ...inIncubator(2, [
    {
      // One hatched late: it is due before its nestmates.
      ...{ label: 'E', species: 'House finch' },
      birds: except(alike(3, 'finchNestling', 15), 'yellow', {
        ...{ plan: 'finchHatchling', massMg: 9_500 },
      }),
    },
    { label: 'F', species: 'House finch', birds: alike(4, 'finchHatchling', 10) },
    { label: 'G', species: 'House sparrow', birds: alike(2, 'sparrow', 13) },
    { label: 'H', species: 'Carolina wren', birds: alike(3, 'wren', 9) },
    { label: 'J', species: 'Carolina wren', birds: alike(3, 'wren', 8) },
  ]),
  ...inIncubator(3, [
    {
      // One does not gape: whoever may not feed it is shown the other.
      ...{ label: 'K', species: 'American robin' },
      birds: except(alike(2, 'robin', 40), 'blue', { plan: 'robinAssisted', massMg: 33_000 }),
    },
    { label: 'L', species: 'American robin', birds: alike(2, 'robin', 44) },
    { label: 'M', species: 'Northern mockingbird', birds: alike(3, 'mockingbird', 25) },
    { label: 'N', species: 'Eastern bluebird', birds: alike(3, 'bluebird', 16) },
    { label: 'P', species: 'European starling', birds: alike(2, 'starling', 45) },
  ]),
  ...inIncubator(4, [
    { label: 'Q', species: 'Cedar waxwing', birds: alike(2, 'waxwing', 18) },
    { label: 'R', species: 'Northern cardinal', birds: alike(2, 'cardinal', 24) },
    { label: 'S', species: 'Chimney swift', birds: unmarked(alike(3, 'swift', 14)) },
  ]),
  ...inIncubator(5, [
    { label: 'T', species: 'Mourning dove', birds: alike(2, 'doveSmall', 18) },
    { label: 'U', species: 'Mourning dove', birds: alike(2, 'dove', 30) },
    { label: 'V', species: 'Mourning dove', birds: alike(1, 'doveOlder', 45) },
    { label: 'W', species: 'Rock pigeon', birds: alike(2, 'pigeon', 100) },
  ]),
  quarantinedIn(6, { label: 'X', species: 'House finch', birds: alike(2, 'finchNestling', 14) }),
]

/** The number of a brood's first bird: birds are numbered in the order of their broods. */
const firstBirdOf = (label: string): number =>
  1 + broods.slice(0, nestNumberOf(label) - 1).reduce((sum, { birds }) => sum + birds.length, 0)

const nestNumberOf = (label: string): number =>
  1 + broods.findIndex((brood) => brood.label === label)

/** The first birds that came in a box: after all that were admitted. */
const firstBoxed = 1 + broods.reduce((sum, { birds }) => sum + birds.length, 0)
const boxedBirds = [0, 1, 2].map((at) => bird(firstBoxed + at))

const boxes: readonly Step[] = [
  {
    ...{ afterMs: minutes(74), by: kwame },
    command: {
      ...{ type: 'BoxArrived', v: 1, label: 'Y', incubator: incubator(4) },
      ...{ howMany: 3, size: 'small', private: { note: 'Came in a shoe box with a tea towel.' } },
    },
  },
  {
    ...{ afterMs: minutes(95), by: kwame },
    command: {
      ...{ type: 'BoxArrived', v: 1, label: 'Z', incubator: incubator(4) },
      ...{ howMany: 1, size: 'medium', private: { note: 'Found under a hedge, no nest near.' } },
    },
  },
]

/** Warm and dark first, then a look, then a little fluid (HRB2 p. 5, 8); nothing passed yet. */
const lookedAt: readonly Step[] = boxedBirds.flatMap((id): readonly Step[] => [
  {
    ...{ afterMs: minutes(92), by: kwame },
    command: { type: 'BirdSeen', v: 1, bird: id, signs: [], droppings: 'none' },
  },
  {
    ...{ afterMs: minutes(93), by: kwame },
    command: {
      ...{ type: 'FluidsGiven', v: 1, bird: id, fluid: 'warm fluid', route: 'byMouth' },
      ...{ given: { unit: 'uL', n: 100 }, isWarmed: true },
    },
  },
])

const holds = (foundedAtMs: InstantMs): readonly Step[] => [
  {
    ...{ afterMs: minutes(71), by: kwame },
    command: {
      ...{ type: 'SetHold', v: 1, nest: nest(nestNumberOf('V')), reason: 'slow crop' },
      lookAgainAtMs: foundedAtMs + minutes(130),
    },
  },
  {
    ...{ afterMs: minutes(86), by: marit },
    command: {
      ...{ type: 'HoldBird', v: 1, bird: bird(firstBirdOf('M') + 1), reason: 'warm first' },
      lookAgainAtMs: foundedAtMs + minutes(116),
    },
  },
]

const onBreak = (foundedAtMs: InstantMs): Step => ({
  ...{ afterMs: minutes(breakAtMin), by: bram },
  command: { type: 'BeginBreak', v: 1, backAtMs: foundedAtMs + minutes(breakAtMin + 20) },
})

export const nestlingRoom: DemoRoom = {
  id: 'pennywren',
  title: 'Pennywren nestling room',
  playedMin,
  people: nestlingPeople,
  onShift: [kwame, marit, jonas, priya, ayla, bram],
  incubators: 6,
  broods,
  workers: [
    { person: marit, fromMin: 4, untilMin: playedMin - 7 },
    { person: jonas, fromMin: 3, untilMin: playedMin - 7 },
    { person: priya, fromMin: 5, untilMin: playedMin + 15 },
    { person: ayla, fromMin: 2, untilMin: playedMin + 15 },
    { person: bram, fromMin: 6, untilMin: breakAtMin },
  ],
  script: (foundedAtMs) => [...boxes, ...lookedAt, ...holds(foundedAtMs), onBreak(foundedAtMs)],
}
