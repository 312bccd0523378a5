// Four stories of a room, to the number: a nest perhaps fed, a record on the wrong nest, an arrival that
// settles, and a technique only one person is signed off for. All of it through orders and the clock.

import { describe, expect, it } from 'vitest'
import type { NestId, PersonId } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { birdDueAtMs, lateMs, nestDueAtMs } from '../../shared/rules/due.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import { type Given, given, known, type Order } from '../support/given.ts'
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

const [ana, ben, iris, lena] = [personOf(1), personOf(2), personOf(3), personOf(4)] as const
const inc = incubatorOf(1)
const [halfHourly, doves] = [planOf(1), planOf(2)] as const
const here = (...people: readonly PersonId[]): readonly RoomEvent[] => [
  ...founded({ opens: '07:00', closes: '21:00' }),
  incubator(inc, '1'),
  planEvery(halfHourly, 30, { technique: 'gapeSyringe', earlyPercent: 10 }),
  planEvery(doves, 120, { technique: 'cropTube', earlyPercent: 0 }),
  person(ana, 'volunteer'),
  person(ben, 'volunteer'),
  person(iris, 'volunteer', ['gapeSyringe', 'cropTube', 'fluids']),
  person(lena, 'lead'),
  ...people.map((id) => onShift(id)),
]
const brood = (id: NestId, label: string, ids: readonly number[], plan = halfHourly): RoomEvent =>
  nest(id, { label, incubator: inc, birds: ids.map((n) => ({ id: birdOf(n), plan })) })
const nestF = nestOf(1)
const nestE = nestOf(2)
const birdsF = [1, 2, 3, 4].map(birdOf)
const birdsE = [5, 6, 7, 8].map(birdOf)
const at = (by: PersonId, time: Clock) => ({ by, at: time }) as const
const looked = (crop: 'full' | 'empty'): Order => ({
  ...{ type: 'Looked', nest: nestF },
  looks: birdsF.map((bird) => ({ bird, crop })),
})
const dueOf = ({ board }: Given, id: NestId) => nestDueAtMs(board, id)

describe('a nest that was perhaps fed', () => {
  const start = given(
    ...here(ana, ben),
    brood(nestF, 'F', [1, 2, 3, 4]),
    round({ nest: nestF, no: 1, by: iris, birds: birdsF, at: '08:40' }),
  )
  const claim: Order = { type: 'ClaimNest', nest: nestF }
  const claimed = start.when(claim, at(ana, '09:10')).room
  const opened = claimed.when({ type: 'StartFeed', nest: nestF, claimNo: 2 }, at(ana, '09:10')).room
  const lapsed = opened.whenClock('09:23')
  const doubt = known(lapsed.room.board.nests[nestF]?.doubts[0], 'doubt')
  const seen = { ...claim, seenDoubts: [doubt.no] } as Order

  it('lapses thirteen minutes after it was opened, and is a question to Ana about 09:10', () => {
    opened.whenClock('09:22:59').gives()
    expect(doubt).toMatchObject({ kind: 'silent', owner: ana, aboutAtMs: clock('09:10') })
    expect(doubt.birds).toEqual(birdsF)
  })

  it('is offered to nobody while only Ana is asked, and to Ben after a minute', () => {
    lapsed.leavesOut('OfferMade')
    lapsed.room.whenClock('09:23:59').gives()
    const offer = lapsed.room.whenClock('09:24')
    offer.includes({ type: 'OfferMade', nest: nestF, person: ben } as never)
    expect(offer.events.filter(({ type }) => type === 'OfferMade')).toHaveLength(1)
    lapsed.room.when(claim, at(ana, '09:24')).refuses({ code: 'AnswerFirst' })
    lapsed.room.when(claim, at(ben, '09:24')).refuses({ code: 'InDoubt', doubts: [doubt.no] })
  })

  const bens = lapsed.room.whenClock('09:24').room.when(seen, at(ben, '09:25')).room

  it('found full is due at 09:40, and its feeds are as they were', () => {
    const { board } = bens.when(looked('full'), at(ben, '09:25')).room
    expect(dueOf({ board } as Given, nestF)).toBe(clock('09:40'))
    for (const bird of birdsF) {
      expect(board.birds[bird]?.feeds.map(({ no }) => no)).toEqual([1])
    }
    expect(board.nests[nestF]?.doubts.filter(({ kind }) => kind === 'twice')).toEqual([])
  })

  it('found empty is fed at 09:26, and due at 09:56', () => {
    const empty = bens.when(looked('empty'), at(ben, '09:25')).room
    expect(dueOf(empty, nestF)).toBe(clock('09:25'))
    const hands = known(empty.board.nests[nestF], 'nest').hands
    const claimNo = hands.type === 'held' ? hands.claimNo : 0
    const feeding = empty.when({ type: 'StartFeed', nest: nestF, claimNo }, at(ben, '09:26')).room
    const answers = birdsF.map((bird) => ({ bird, outcome: 'ate' as const }))
    const fed = feeding.when(
      { type: 'AnswerBirds', nest: nestF, claimNo, answers },
      at(ben, '09:31'),
    )
    expect(dueOf(fed.room, nestF)).toBe(clock('09:56'))
    expect(fed.room.board.nests[nestF]?.doubts.filter(({ kind }) => kind === 'twice')).toEqual([])
  })

  it('of which Ana says that she fed all of it is due at 09:40 too', () => {
    const all: Order = {
      type: 'SayWhatHappened',
      nest: nestF,
      claimNo: doubt.no,
      said: { type: 'all' },
    }
    const said = lapsed.room.when(all, at(ana, '09:23:30')).room
    expect(dueOf(said, nestF)).toBe(clock('09:40'))
    expect(said.board.nests[nestF]?.doubts).toEqual([])
  })
})

describe('a record on the wrong nest', () => {
  const start = given(
    ...here(ana, ben),
    brood(nestF, 'F', [1, 2, 3, 4]),
    brood(nestE, 'E', [5, 6, 7, 8]),
    round({ nest: nestE, no: 1, by: ben, birds: birdsE, at: '13:40' }),
    round({ nest: nestF, no: 2, by: ben, birds: birdsF, at: '13:38' }),
  )
  const claimE: Order = { type: 'ClaimNest', nest: nestE }
  const answers = birdsE.map((bird) => ({ bird, outcome: 'ate' as const }))
  const wrong = start
    .when(claimE, at(ana, '14:10'))
    .room.when({ type: 'AnswerBirds', nest: nestE, claimNo: 3, answers }, at(ana, '14:14')).room
  const that: Order = {
    ...{ type: 'CorrectFeed', nest: nestE, claimNo: 3, answers: [], reason: 'that was F' },
    toNest: nestF,
  }
  const { board } = wrong.when(that, at(ana, '14:22')).room

  it('put right at 14:22 makes E due at 14:10, twelve minutes late, and F at 14:40', () => {
    expect(dueOf(wrong, nestE)).toBe(clock('14:40'))
    expect(nestDueAtMs(board, nestE)).toBe(clock('14:10'))
    expect(lateMs(board, clock('14:10'), clock('14:22'))).toBe(12 * 60_000)
    expect(nestDueAtMs(board, nestF)).toBe(clock('14:40'))
    for (const bird of birdsF) {
      expect(birdDueAtMs(board, known(board.birds[bird], bird))).toBe(clock('14:40'))
    }
  })

  it('is no double feed, and what was recorded first is kept', () => {
    expect(Object.values(board.nests).flatMap(({ doubts }) => doubts)).toEqual([])
    expect(board.nests[nestE]?.rounds.map(({ no, movedTo }) => [no, movedTo])).toEqual([
      [1, null],
      [3, nestF],
    ])
  })
})

describe('an arrival', () => {
  const box: Order = { type: 'BoxArrived', label: 'K', incubator: inc, howMany: 3, size: 'small' }
  const nestK = nestOf(1)
  const boxed = given(...here(ana, ben, iris)).when(box, at(ana, '13:02')).room
  const birds = birdsOf(boxed.board, nestK).map(({ id }) => id)
  const fluids = birds.reduce(
    (now, bird) =>
      now.when(
        {
          ...{ type: 'FluidsGiven', bird, fluid: 'saline', route: 'byMouth', isWarmed: true },
          given: { unit: 'uL', n: 100 },
        },
        at(iris, '13:25'),
      ).room,
    boxed,
  )

  it('of 13:02 is to be looked at by 13:22', () => {
    expect(birds).toHaveLength(3)
    for (const { standing } of birdsOf(boxed.board, nestK)) {
      expect(standing).toEqual({ type: 'settling', lookDueAtMs: clock('13:22') })
    }
  })

  it('is offered to nobody, and nobody may claim it', () => {
    expect(boxed.whenClock('18:00').events).toEqual([])
    for (const who of [ana, ben, iris]) {
      const { reason } = boxed.when({ type: 'ClaimNest', nest: nestK }, at(who, '13:30'))
      expect(reason).toEqual({
        code: 'NothingReady',
        birds: birds.map((bird) => ({ bird, why: { type: 'settling' } })),
      })
    }
  })

  it('without droppings after fluids at 13:25 is one call at 14:25, to whoever is trained', () => {
    fluids.whenClock('14:24:59').gives()
    const call = fluids.whenClock('14:25')
    call.gives({ type: 'RequestRaised', kind: 'noDroppings', nest: nestK })
    const [request] = Object.values(call.room.board.requests)
    expect(request && askedOf(call.room.board, request)).toEqual([iris])
    call.room.whenClock('17:00').gives()
  })

  it('is due only when it was released, and until then late by nothing', () => {
    const before = fluids.whenClock('14:39').room
    expect(dueOf(before, nestK)).toBeNull()
    const release: Order = { type: 'ReleaseArrival', birds, plan: halfHourly }
    before.when(release, at(ana, '14:40')).refuses({ code: 'NotAllowed' })
    const after = before.when(release, at(iris, '14:40')).room
    expect(dueOf(after, nestK)).toBe(clock('14:40'))
    expect(lateMs(after.board, clock('14:40'), clock('14:40'))).toBe(0)
  })
})

describe('a technique only Iris is signed off for', () => {
  const dovecotes = [1, 2, 3, 4, 5].map(nestOf)
  const dueAtTen = given(
    ...here(ana, ben, iris, lena),
    ...dovecotes.map((id, n) => brood(id, `D${n}`, [10 + n], doves)),
    ...dovecotes.map((id, n) =>
      round({
        nest: id,
        no: 1 + n,
        by: iris,
        birds: [birdOf(10 + n)],
        at: '08:00',
        intervalMs: 7_200_000,
      }),
    ),
  )
  const everyMinute = Array.from(
    { length: 60 },
    (_, n) => `10:${String(n).padStart(2, '0')}` as Clock,
  )
  const during = (start: Given) => {
    let now = start
    return everyMinute.flatMap((time) => {
      const turn = now.whenClock(time)
      now = turn.room
      return turn.events.map((event) => ({ time, event }))
    })
  }

  it('brings dove nests to nobody else', () => {
    const offers = during(dueAtTen).flatMap(({ event }) =>
      event.type === 'OfferMade' ? [event.person] : [],
    )
    expect(offers.length).toBeGreaterThan(0)
    expect(new Set(offers)).toEqual(new Set([iris]))
  })

  it('is the reason a direct claim is refused, and names her', () => {
    for (const who of [ana, ben, lena]) {
      dueAtTen.when({ type: 'ClaimNest', nest: nestOf(1) }, at(who, '10:01')).refuses({
        code: 'NothingReady',
        birds: [
          { bird: birdOf(10), why: { type: 'needsSignOff', technique: 'cropTube', have: [iris] } },
        ],
      })
    }
  })

  it('with one nest due while she is on a break is told the lead once, ten minutes after', () => {
    const rest = dovecotes.slice(1).map((id, n) =>
      round({
        nest: id,
        no: 11 + n,
        by: iris,
        birds: [birdOf(11 + n)],
        at: '09:50',
        intervalMs: 7_200_000,
      }),
    )
    const onBreak = dueAtTen.and(...rest).when({ type: 'BeginBreak' }, at(iris, '09:58')).room
    expect(during(onBreak)).toMatchObject([
      { time: '10:10', event: { type: 'LeadTold', why: 'lateTen', nest: nestOf(1) } },
    ])
  })
})
