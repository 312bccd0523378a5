// A room for the views of people and calls: Kwame leads and mentors, Priya is signed off for fluids, Ana
// and Ben feed by syringe, Tess learns with Kwame. E and F stand in incubator 1, G in incubator 2.

import type { RoomEvent } from '../../shared/board/events.ts'
import type { PublicNames } from '../../shared/views/names.ts'
import { type Given, given } from '../support/given.ts'
import {
  birdOf,
  type Clock,
  clock,
  founded,
  incubator,
  incubatorOf,
  nest,
  nestOf,
  onShift,
  person,
  personOf,
  planEvery,
  planOf,
  round,
} from '../support/roomBuilder.ts'

export const kwame = personOf(1)
export const priya = personOf(2)
export const ana = personOf(3)
export const ben = personOf(4)
export const tess = personOf(5)

/** First names by the id the board holds. */
export const named = (words: Readonly<Record<string, { name?: string; note?: string }>>) =>
  words as PublicNames

export const names = named({
  x1: { name: 'Kwame' },
  x2: { name: 'Priya' },
  x3: { name: 'Ana' },
  x4: { name: 'Ben' },
  x5: { name: 'Tess' },
})

export const [e, f, g] = [nestOf(1), nestOf(2), nestOf(3)]
export const everybody = [kwame, priya, ana, ben, tess] as const

const brood = (first: number, count: number) =>
  Array.from({ length: count }, (_, at) => ({ id: birdOf(first + at), plan: planOf(1) }))

export const birdsOfE = [birdOf(1), birdOf(2)]
export const birdsOfF = [birdOf(3), birdOf(4), birdOf(5), birdOf(6)]

/** Everybody on shift since seven; the nests fed by Ana at these times. */
export function teamRoom(fed: { readonly e: Clock; readonly f: Clock }): Given {
  return given(
    founded({ opens: '07:00', closes: '21:00' }),
    incubator(incubatorOf(1), '1'),
    incubator(incubatorOf(2), '2'),
    planEvery(planOf(1), 30, { technique: 'gapeSyringe', earlyPercent: 10 }),
    person(kwame, 'lead', ['gapeSyringe', 'fluids', 'mentor']),
    person(priya, 'volunteer', ['gapeSyringe', 'fluids']),
    person(ana, 'volunteer'),
    person(ben, 'volunteer'),
    person(tess, 'trainee'),
    { type: 'MentorSet', v: 1, person: tess, mentor: kwame },
    everybody.map((one) => onShift(one, '07:00')),
    nest(e, { label: 'E', incubator: incubatorOf(1), birds: brood(1, 2) }),
    nest(f, { label: 'F', incubator: incubatorOf(1), birds: brood(3, 4) }),
    nest(g, { label: 'G', incubator: incubatorOf(2), birds: brood(7, 1) }),
    round({ nest: e, no: 1, by: ana, birds: birdsOfE, at: fed.e }),
    round({ nest: f, no: 2, by: ana, birds: birdsOfF, at: fed.f }),
    round({ nest: g, no: 3, by: ana, birds: [birdOf(7)], at: fed.f }),
  )
}

/** The same room, calm at ten past nine: nothing is due before half past. */
export const calmTeam: Given = teamRoom({ e: '09:00', f: '09:05' })

export const calledForFluids = (time: Clock): RoomEvent =>
  ({
    ...{ type: 'RequestRaised', v: 1, kind: 'fluids', why: 'refusedTwice', request: 'r1' },
    ...{ nest: f, bird: birdOf(4), by: null, visit: 2, atMs: clock(time) },
  }) as RoomEvent
