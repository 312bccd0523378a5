// A brood without bands: "1 of 5 refused, not known which" is a whole record. All of them count as fed,
// at half the interval somebody looks for the hungry one, and two such records running call for fluids.

import { describe, expect, it } from 'vitest'
import { eventSchema } from '../../shared/board/events.ts'
import { birdDueAtMs, birdReadyAtMs, lastFedAtMs, unsureFeed } from '../../shared/rules/due.ts'
import { banded } from '../support/broodBuilder.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { birdOf, type Clock, clock, nestOf, opened, round } from '../support/roomBuilder.ts'
import { ana, ben, halfHourly, inc1, iris, room } from './smallRoom.ts'

const nestU = nestOf(11)
const birds = [1, 2, 3, 4, 5].map((n) => birdOf(30 + n))
const [u1, u2] = [birdOf(31), birdOf(32)] as const
const fed = { nest: nestU, birds, by: ana } as const
const brood = room.and(
  banded(nestU, {
    ...{ label: 'U', incubator: inc1, plan: halfHourly },
    birds: birds.map((id) => ({ id, band: null })),
  }),
  round({ ...fed, no: 20, at: '08:40' }),
  ...opened({ ...fed, no: 21, at: '09:10' }),
)
const ate = birds.map((bird) => ({ bird, outcome: 'ate' as const }))
const answer = (more: object = {}, no = 21): Order =>
  ({ type: 'AnswerBirds', nest: nestU, claimNo: no, answers: ate, ...more }) as Order
const one = { notKnownWhich: { outcome: 'refused', count: 1 } }
const unsure = brood.when(answer(one), { by: ana, at: '09:14' }).room
const due = ({ board }: Given, id = u1) => birdDueAtMs(board, known(board.birds[id], id))
const look = (given: Given, crop: 'full' | 'empty' | 'cannotTell', at: Clock = '09:26') =>
  given.when({ type: 'Looked', nest: nestU, looks: [{ bird: u1, crop }] }, { by: ben, at }).room

describe('a record of which not every outcome is known', () => {
  it('is one the journal can hold', () => {
    const [recorded] = brood.when(answer(one), { by: ana, at: '09:14' }).events
    expect(() => eventSchema.parse(recorded)).not.toThrow()
    expect(recorded).toMatchObject({ notKnownWhich: { outcome: 'refused', count: 1 } })
  })

  it('moves when every bird of the brood was last fed', () => {
    for (const id of birds) {
      expect(lastFedAtMs(known(unsure.board.birds[id], id))).toBe(clock('09:10'))
    }
  })

  it('ends the claim like any other', () => {
    expect(unsure.board.nests[nestU]?.hands).toEqual({ type: 'free' })
  })

  it('makes each of them due at half its interval, for a look, and no earlier', () => {
    for (const id of birds) {
      expect(due(unsure, id)).toBe(clock('09:25'))
      const bird = known(unsure.board.birds[id], id)
      expect(birdReadyAtMs(unsure.board, bird)).toBe(clock('09:25'))
      expect(unsureFeed(bird)?.no).toBe(21)
    }
  })

  it('with every outcome known is due a whole interval later', () => {
    const sure = brood.when(answer(), { by: ana, at: '09:14' }).room
    expect(due(sure)).toBe(clock('09:40'))
    expect(unsureFeed(known(sure.board.birds[u1], 'bird'))).toBeNull()
  })
})

describe('the look for the hungry one', () => {
  it('at a full crop makes that bird due a whole interval after the feed', () => {
    expect(due(look(unsure, 'full'))).toBe(clock('09:40'))
    expect(due(look(unsure, 'full'), u2)).toBe(clock('09:25'))
  })

  it('at an empty crop makes it due at once', () => {
    expect(due(look(unsure, 'empty'))).toBe(clock('09:26'))
  })

  it('that cannot tell leaves it due, and not known', () => {
    const after = look(unsure, 'cannotTell')
    expect(due(after)).toBe(clock('09:25'))
    expect(unsureFeed(known(after.board.birds[u1], 'bird'))?.no).toBe(21)
  })

  it('changes no count of feeds', () => {
    for (const crop of ['full', 'empty', 'cannotTell'] as const) {
      const { board } = look(unsure, crop)
      expect(board.birds[u1]?.feeds).toEqual(unsure.board.birds[u1]?.feeds)
    }
  })

  it('and a feed that follows it is not a bird fed twice', () => {
    const seen = look(unsure, 'empty')
    const claim = { nest: nestU, no: 22, by: ben, birds: [u1], at: '09:26' } as const
    const again: Order = {
      ...{ type: 'AnswerBirds', nest: nestU, claimNo: 22 },
      answers: [{ bird: u1, outcome: 'ate' }],
    }
    const after = seen.and(...opened(claim)).when(again, { by: ben, at: '09:29' }).room
    expect(after.board.nests[nestU]?.doubts).toEqual([])
    expect(due(after)).toBe(clock('09:56'))
  })
})

const raised = (given: Given, at: Clock) =>
  given
    .whenClock(at)
    .events.flatMap((event) =>
      event.type === 'RequestRaised'
        ? [{ kind: event.kind, nest: event.nest, bird: event.bird }]
        : [],
    )
/** One record more of the brood, ten or more minutes after the last. */
const then = (given: Given, no: number, at: Clock, more: object) =>
  given
    .and(...opened({ ...fed, no, at, by: iris }))
    .when(answer(more, no), { by: iris, at: `${at}:40` as Clock }).room

describe('two such records running', () => {
  const twice = then(unsure, 22, '09:40', one)
  const forU = [{ kind: 'fluids', nest: nestU, bird: null }]

  it('call for fluids once, for the brood', () => {
    expect(raised(twice, '09:40:54')).toEqual([])
    expect(raised(twice, '09:40:55')).toEqual(forU)
    const third = then(twice.whenClock('09:41').room, 23, '10:10', one)
    expect(raised(third, '10:12')).toEqual([])
  })

  it('are one alone, or two with a whole feed between them: nobody is called', () => {
    expect(raised(unsure, '09:30')).toEqual([])
    expect(raised(then(then(unsure, 22, '09:40', {}), 23, '10:10', one), '10:12')).toEqual([])
  })

  it('are two of which the second was not about a refusal: nobody is called', () => {
    const asleep = { notKnownWhich: { outcome: 'notFed', count: 1 } }
    expect(raised(then(unsure, 22, '09:40', asleep), '09:42')).toEqual([])
  })

  it('leave every bird to be fed: which of them waits is not known', () => {
    const calling = twice.whenClock('09:41').room
    calling
      .when({ type: 'ClaimNest', nest: nestU }, { by: ben, at: '10:10' })
      .includes({ type: 'NestClaimed', birds } as never)
  })

  it('do not count a record that was taken back', () => {
    const back = twice.when(
      { type: 'TakeBackFeed', nest: nestU, claimNo: 22, wasFed: 'no' },
      { by: iris, at: '09:40:50' },
    ).room
    expect(raised(back, '09:45')).toEqual([])
  })

  it('do not count a record of which it was said since what each bird did', () => {
    const told: Order = {
      ...{ type: 'CorrectFeed', nest: nestU, claimNo: 22, reason: 'seen since' },
      answers: [{ bird: u1, outcome: 'refused' }, ...ate.slice(1)],
    }
    const known = twice.when(told, { by: iris, at: '09:40:50' }).room
    expect(known.board.nests[nestU]?.rounds.at(-1)?.notKnownWhich).toBeNull()
    expect(raised(known, '09:45')).toEqual([])
  })
})

describe('a correction of such a record', () => {
  const correct = (answers: readonly object[]): Order =>
    ({
      ...{ type: 'CorrectFeed', nest: nestU, claimNo: 21, reason: 'seen since' },
      answers,
    }) as Order
  const mended = (answers: readonly object[]) =>
    unsure.when(correct(answers), { by: ana, at: '09:16' }).room

  it('that says which bird refused makes the others sure, and that one due at half its interval', () => {
    const after = mended([{ bird: u2, outcome: 'refused' }])
    expect([due(after, u1), due(after, u2)]).toEqual([clock('09:40'), clock('09:25')])
    expect(unsureFeed(known(after.board.birds[u1], 'bird'))).toBeNull()
  })

  it('that says only how much one bird took leaves the others to be looked at', () => {
    const given = { amount: { unit: 'uL', n: 300 }, is: 'measured' }
    const after = mended([{ bird: u2, outcome: 'ate', given }])
    expect([due(after, u1), due(after, u2)]).toEqual([clock('09:25'), clock('09:40')])
    expect(after.board.nests[nestU]?.rounds.at(-1)?.notKnownWhich).toEqual(one.notKnownWhich)
  })
})
