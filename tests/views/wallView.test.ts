import { describe, expect, it } from 'vitest'
import { hourMs, minuteMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { boardOf, busyRoom, calmRoom, names, nowMs } from '../support/boards.ts'

const nestsOf = (board: Board, atMs = nowMs) =>
  wallView(board, names, atMs).lanes.flatMap((lane) => lane.nests)

const stateOf = (board: Board, label: string, atMs = nowMs) =>
  nestsOf(board, atMs).find((nest) => nest.label === label)?.state

describe('the lanes', () => {
  it.each([
    ['24 nests', calmRoom, 6, 24],
    ['60 nests', busyRoom, 10, 60],
  ])('hold each of %s exactly once, under its incubator', (_, board, lanes, nests) => {
    const view = wallView(board, names, nowMs)
    expect(view.lanes.map(({ label }) => label)).toEqual(
      Array.from({ length: lanes }, (_lane, at) => String(at + 1)),
    )
    const shown = nestsOf(board).map(({ nest }) => nest)
    expect(new Set(shown).size).toBe(nests)
    expect(shown.length).toBe(nests)
    for (const lane of view.lanes) {
      expect(lane.nests.every((nest) => nest.incubator === lane.incubator)).toBe(true)
    }
  })

  it('stand in the order of waiting: late, due, claimed, soon, later, settling, held', () => {
    const room = boardOf([
      { label: 'A', incubator: 1, hold: 'crop full' },
      { label: 'B', incubator: 1, settling: true },
      { label: 'C', incubator: 1, fedMinutesAgo: 5 },
      { label: 'D', incubator: 1, fedMinutesAgo: 28 },
      { label: 'E', incubator: 1, fedMinutesAgo: 33, claimedBy: 1 },
      { label: 'F', incubator: 1, fedMinutesAgo: 30 },
      { label: 'G', incubator: 1, fedMinutesAgo: 33 },
      { label: 'H', incubator: 1, fedMinutesAgo: 43 },
    ])
    expect(
      nestsOf(room)
        .map(({ label }) => label)
        .join(''),
    ).toBe('HGFEDCBA')
  })

  it('count labels like people do: B before AA', () => {
    const room = boardOf(
      ['AA', 'B', 'A'].map((label) => ({ label, incubator: 1, fedMinutesAgo: 5 })),
    )
    expect(nestsOf(room).map(({ label }) => label)).toEqual(['A', 'B', 'AA'])
  })
})

describe('the state of a nest', () => {
  it('is late by whole minutes from the first on, and due before that', () => {
    const room = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 30 }])
    expect(stateOf(room, 'A', nowMs + minuteMs - 1)?.type).toBe('due')
    expect(stateOf(room, 'A', nowMs + minuteMs)).toMatchObject({ type: 'late', lateMs: minuteMs })
  })

  it('is soon once its window has begun, a tenth of the interval early', () => {
    const room = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 0 }])
    expect(stateOf(room, 'A', nowMs + 27 * minuteMs - 1)?.type).toBe('later')
    expect(stateOf(room, 'A', nowMs + 27 * minuteMs)?.type).toBe('soon')
  })

  it('is not late while the room is closed, but due when it opens', () => {
    const room = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 30 }])
    const closesAtMs = Date.UTC(2026, 5, 13, 20)
    expect(stateOf(room, 'A', closesAtMs - 1)?.type).toBe('late')
    expect(stateOf(room, 'A', closesAtMs)).toEqual({
      type: 'later',
      dueAtMs: Date.UTC(2026, 5, 14, 6),
    })
  })

  it('shows who has it rather than that it is late', () => {
    expect(stateOf(busyRoom, 'C')).toMatchObject({ type: 'claimed', name: 'Mira' })
  })

  it('is warming while every bird settles, and never late', () => {
    expect(stateOf(busyRoom, 'AX', nowMs + 5 * hourMs)?.type).toBe('settling')
  })
})

describe('a doubt', () => {
  it('stands beside the state of its nest, with whom and about when', () => {
    const nest = nestsOf(busyRoom).find(({ label }) => label === 'N')
    expect(nest?.state.type).toBe('late')
    expect(nest?.doubt).toMatchObject({ name: 'Kofi', aboutAtMs: nowMs - 35 * minuteMs })
  })

  it('asks only its owner for a minute after it was raised', () => {
    const room = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 40, doubtOf: 1 }])
    const raisedAtMs = nowMs - 2 * minuteMs
    const asking = (atMs: number) => nestsOf(room, atMs)[0]?.doubt?.isAsking
    expect(asking(raisedAtMs + minuteMs - 1)).toBe(true)
    expect(asking(raisedAtMs + minuteMs)).toBe(false)
  })

  it('no longer warns once every bird was looked at', () => {
    const room = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 40, doubtOf: 1 }])
    const [nest] = Object.values(room.nests)
    if (!nest) throw new Error('the fixture has a nest')
    const looked = nest.doubts.map((doubt) => ({ ...doubt, looked: doubt.birds }))
    const board = { ...room, nests: { [nest.id]: { ...nest, doubts: looked } } }
    expect(nestsOf(board)[0]?.doubt).toBeNull()
  })
})

describe('the room', () => {
  it('counts late, due, who is here and how many hands are free', () => {
    expect(wallView(calmRoom, names, nowMs).counts).toMatchObject({
      late: 0,
      due: 1,
      here: 7,
      free: 5,
    })
    expect(wallView(busyRoom, names, nowMs).counts).toMatchObject({ late: 12, doubts: 2, free: 1 })
  })

  it('names who is away and when they are back, and nobody for being idle', () => {
    expect(wallView(calmRoom, names, nowMs).away).toEqual([
      { person: 'p9', name: 'Wen', backAtMs: nowMs + 16 * minuteMs, isUnheard: false },
    ])
  })

  it('names who is on shift and not heard, and counts them as not free', () => {
    const [ivo] = Object.values(calmRoom.people).filter(({ id }) => id === 'p2')
    if (!ivo) throw new Error('the fixture has a second person')
    const people = { ...calmRoom.people, [ivo.id]: { ...ivo, unreachableSinceMs: nowMs } }
    const { away, counts } = wallView({ ...calmRoom, people }, names, nowMs)
    expect(away.map(({ name, isUnheard }) => [name, isUnheard])).toEqual([
      ['Ivo', true],
      ['Wen', false],
    ])
    expect(counts).toMatchObject({ here: 7, free: 4 })
  })

  it('says until when it is open, and from when again', () => {
    const at = (hours: number) => wallView(calmRoom, names, nowMs + hours * hourMs).hours
    expect(at(0)).toEqual({ type: 'open', closesAtMs: Date.UTC(2026, 5, 13, 20) })
    expect(at(11)).toEqual({ type: 'closed', opensAtMs: Date.UTC(2026, 5, 14, 6) })
    expect(at(-4)).toEqual({ type: 'closed', opensAtMs: Date.UTC(2026, 5, 13, 6) })
  })

  it('shows no name for a person whose name was erased', () => {
    const nest = wallView(busyRoom, {}, nowMs)
      .lanes.flatMap((lane) => lane.nests)
      .find(({ label }) => label === 'C')
    expect(nest?.state).toMatchObject({ type: 'claimed', name: null })
  })
})
