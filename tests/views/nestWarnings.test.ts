// Why to look before feeding, what is then known of each crop, and who is asked about it.

import { describe, expect, it } from 'vitest'
import { minuteMs, type NestId, type PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { claimView } from '../../shared/views/claimView.ts'
import { doubtQuestions } from '../../shared/views/doubtQuestions.ts'
import type { PublicNames } from '../../shared/views/names.ts'
import { nestWarnings } from '../../shared/views/nestWarnings.ts'
import { letTimePass } from '../support/given.ts'
import {
  birdOf,
  type Clock,
  claimed,
  clock,
  doubt,
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

const f = nestOf(1)
const birds = [birdOf(1), birdOf(2), birdOf(3)]
const [ana, ben] = [personOf(1), personOf(2)]
const names = { x1: { name: 'Ana' }, x2: { name: 'Ben' } } as PublicNames

const start: Board = foldEvents(emptyBoard, [
  ...founded({ opens: '06:00', closes: '21:00' }),
  incubator(incubatorOf(1), '1'),
  planEvery(planOf(1), 30, { technique: 'gapeSyringe', earlyPercent: 10 }),
  person(ana, 'lead'),
  person(ben, 'volunteer'),
  onShift(ana),
  onShift(ben),
  nest(f, {
    label: 'F',
    incubator: incubatorOf(1),
    birds: birds.map((id) => ({ id, plan: planOf(1) })),
  }),
])

const roundAt = (no: number, by: PersonId, at: Clock) => round({ nest: f, no, by, birds, at })
const oneRefused = {
  ...roundAt(1, ana, '09:10'),
  notKnownWhich: { outcome: 'refused', count: 1 },
} as const
const warned = (board: Board) => nestWarnings(board, names, nestAt(board, f))
const heldBy = (board: Board, by: PersonId, at: Clock) =>
  foldEvents(board, [claimed({ nest: f, no: 9, by, birds, at })])
const looked = (board: Board, bird: number, crop: 'full' | 'empty', at: Clock) =>
  foldEvents(board, [
    {
      ...{ type: 'BirdsLooked', v: 1, nest: f, by: ben, atMs: clock(at) },
      looks: [
        crop === 'full'
          ? { bird: birdOf(bird), crop, fullSinceMs: clock('09:10') }
          : { bird: birdOf(bird), crop, emptyFromMs: clock(at) },
      ],
    },
  ])
const cropsOf = (board: Board, at: Clock) =>
  claimView(board, names, { person: ben, nowMs: clock(at) })?.birds.map(
    ({ crop, hidesAmount }) => `${crop}${hidesAmount ? ', hidden' : ''}`,
  )

function nestAt(board: Board, id: NestId) {
  const found = board.nests[id]
  if (!found) throw new Error('the room has this nest')
  return found
}

describe('the warnings of a nest', () => {
  it('are none after an ordinary feed', () => {
    expect(warned(foldEvents(start, [roundAt(1, ana, '09:10')]))).toEqual([])
  })

  it('name who may have fed it, and when', () => {
    const board = foldEvents(start, [
      doubt({ nest: f, no: 4, owner: ana, birds, about: '09:10', raised: '09:15' }),
    ])
    expect(warned(board)).toEqual([
      { type: 'perhapsFed', no: 4, name: 'Ana', aboutAtMs: clock('09:10') },
    ])
  })

  it('give both times of what seems recorded twice, and put no question to anybody', () => {
    const rounds = [roundAt(1, ana, '09:10'), roundAt(2, ben, '09:17')]
    const board = foldEvents(start, [
      ...rounds,
      {
        ...doubt({ nest: f, no: 3, owner: null, birds, about: '09:17', raised: '09:18' }),
        kind: 'twice',
        pair: [1, 2],
      } as RoomEvent,
    ])
    expect(warned(board)).toEqual([
      { type: 'twice', no: 3, firstAtMs: clock('09:10'), secondAtMs: clock('09:17') },
    ])
    expect(doubtQuestions(board, ana)).toEqual([])
    expect(doubtQuestions(board, ben)).toEqual([])
  })

  it('say how many went without where nobody knows which, until the crops were seen', () => {
    const board = foldEvents(start, [oneRefused])
    expect(warned(board)).toMatchObject([
      { type: 'hungry', no: 1, notKnownWhich: { outcome: 'refused', count: 1 }, brood: 3 },
    ])
    const seen = [1, 2, 3].reduce(
      (next, bird) => looked(next, bird, bird === 2 ? 'empty' : 'full', '09:30'),
      board,
    )
    expect(warned(seen)).toEqual([])
  })
})

describe('the crops of a claim', () => {
  it('are all to be looked at where one bird went without, with no amount shown', () => {
    const board = heldBy(foldEvents(start, [oneRefused]), ben, '09:26')
    expect(cropsOf(board, '09:26')).toEqual(['look, hidden', 'look, hidden', 'look, hidden'])
  })

  it('stay as seen until the visit is over', () => {
    const board = heldBy(foldEvents(start, [oneRefused]), ben, '09:26')
    const seen = looked(looked(board, 1, 'full', '09:27'), 2, 'empty', '09:27')
    expect(cropsOf(seen, '09:28')).toEqual(['full, hidden', 'empty', 'look, hidden'])
  })

  it('are not those of an earlier visit', () => {
    const seen = looked(foldEvents(start, [roundAt(1, ana, '09:10')]), 1, 'full', '09:20')
    expect(cropsOf(heldBy(seen, ben, '09:50'), '09:50')?.[0]).toBe('notDoubted')
  })
})

describe('the claim in hand', () => {
  it('says from when the brood is out of the heat, and what that rests on', () => {
    const board = heldBy(start, ben, '09:26')
    const view = claimView(board, names, { person: ben, nowMs: clock('09:29') })
    expect(view).toMatchObject({
      startedAtMs: clock('09:26'),
      isOpened: false,
      usesStartTap: false,
      cropLook: 'songbird',
    })
  })

  it('counts without the birds an earlier count missed', () => {
    const short = { no: 1, missing: 1, nest: f, by: ana, atMs: clock('09:12') }
    const board = foldEvents(heldBy(start, ben, '09:26'), [{ type: 'BirdsShort', v: 1, ...short }])
    expect(claimView(board, names, { person: ben, nowMs: clock('09:27') })).toMatchObject({
      brood: 3,
      missing: 1,
    })
  })

  it('is asked about once it has lapsed', () => {
    const board = letTimePass(heldBy(start, ben, '09:26'), clock('20:59') + minuteMs).board
    expect(doubtQuestions(board, ben)).toMatchObject([{ label: 'F', no: 9 }])
  })
})
