// The demo rooms, played through the real rules: every order is taken, and what is due, late, in hand,
// settling and held at the end is an ordinary busy hour. The server plays the same orders to disk;
// openHouse.test.ts sees that they all came through there.

import { describe, expect, it } from 'vitest'
import type { DemoRoom } from '../../../demo-data/demoRoom.ts'
import { demoRooms } from '../../../demo-data/demoRooms.ts'
import { longRoom } from '../../../demo-data/longRoom.ts'
import { nestlingRoom } from '../../../demo-data/nestlingRoom.ts'
import { played } from '../../../demo-data/played.ts'
import { demoList } from '../../../demo-data/steps.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import { hashBoard } from '../../../shared/board/boardHash.ts'
import { birdsOf } from '../../../shared/board/change.ts'
import { commandSchema } from '../../../shared/board/commands.ts'
import { roles, signOffs } from '../../../shared/board/constants.ts'
import type { Bird, Board, Nest } from '../../../shared/board/state.ts'
import { speciesOf } from '../../../shared/care/species.ts'
import { codeOf } from '../../../shared/care/speciesCodes.ts'
import { nextNest } from '../../../shared/plan/nextNest.ts'
import { birdDueAtMs, lateMs, nestDueAtMs } from '../../../shared/rules/due.ts'
import { isMentorAway } from '../../../shared/rules/mentors.ts'

const founded = { foundedAtMs: Date.UTC(2026, 4, 9, 9, 0), zone: 'America/New_York' }

const endMs = ({ playedMin }: DemoRoom) => founded.foundedAtMs + playedMin * minuteMs
const nestsOf = (board: Board) => Object.values(board.nests)
const broodsOf = (board: Board) => nestsOf(board).map((nest) => birdsOf(board, nest.id))

/** Minutes until a nest is due; negative when it is late, null when no bird of it may be fed. */
function dueInMin(board: Board, nest: Nest, nowMs: number): number | null {
  const dueAtMs = nestDueAtMs(board, nest.id)
  return dueAtMs === null ? null : (dueAtMs - nowMs) / minuteMs
}

const isFree = (nest: Nest) => nest.hands.type === 'free'
const plansOf = (brood: readonly Bird[]) => new Set(brood.map(({ plan }) => plan))

describe.each(demoRooms)('$title', (room) => {
  const { steps, board } = played(room, founded)

  it('sends only commands that the edge would take', () => {
    for (const { command } of steps) commandSchema.parse(command)
  })

  it('has set nothing aside, and leaves no doubt and no call open', () => {
    expect(board.setAside).toEqual([])
    expect(Object.values(board.requests)).toEqual([])
    for (const { doubts } of nestsOf(board)) expect(doubts).toEqual([])
  })

  it('comes to the same board every time', () => {
    expect(hashBoard(played(room, founded).board)).toBe(hashBoard(board))
  })

  it('comes to the same orders at whatever minute it is made', () => {
    const later = played(room, { ...founded, foundedAtMs: founded.foundedAtMs + 97 * minuteMs })
    const told = (all: typeof steps) =>
      all.map(({ afterMs, by, command }) => [afterMs, by, command.type])
    expect(told(later.steps)).toEqual(told(steps))
  })

  it('has everybody’s own name and PIN, and the people of its list', () => {
    expect(new Set(room.people.map(({ pin }) => pin)).size).toBe(room.people.length)
    expect(new Set(room.people.map(({ name }) => name)).size).toBe(room.people.length)
    expect(Object.values(board.people).map(({ role }) => role)).toEqual(
      room.people.map(({ role }) => role),
    )
  })

  it('has every role, and somebody beside the permit holder for every technique it needs', () => {
    expect(new Set(room.people.map(({ role }) => role))).toEqual(new Set(roles))
    expect(new Set(room.people.flatMap((one) => one.signOffs))).toEqual(new Set(signOffs))
    const onShift = Object.values(board.people).filter(({ shift }) => shift === 'on')
    for (const { technique } of Object.values(board.plans)) {
      expect(onShift.some((one) => one.signOffs.includes(technique))).toBe(true)
    }
  })

  it('has a mentor on shift for its trainee', () => {
    const trainees = Object.values(board.people).filter(({ role }) => role === 'trainee')
    expect(trainees.map(({ id }) => isMentorAway(board, id))).toEqual([false])
  })

  it('gives every plan its source, and no amount over its cap', () => {
    for (const { source, planned, cap } of Object.values(board.plans)) {
      expect(source).not.toBe('')
      if (planned && cap) expect(planned.n).toBeLessThanOrEqual(cap.n)
    }
  })

  it('knows every species by the code of its list', () => {
    const codes = Object.values(board.birds).flatMap(({ species }) => species ?? [])
    expect(codes.length).toBeGreaterThan(50)
    for (const code of codes) expect(codeOf(speciesOf(code)?.name ?? '', demoList)).toBe(code)
  })

  it('keeps finches apart from doves, pigeons and starlings (HRB2 p. 450, 750)', () => {
    const groupsIn = new Map<string, string[]>()
    for (const { nest, species } of Object.values(board.birds)) {
      const name = speciesOf(species ?? '')?.name ?? ''
      const incubator = board.nests[nest]?.incubator ?? ''
      const group = /finch/.test(name) ? 'finch' : /dove|pigeon|starling/.test(name) ? 'apart' : ''
      groupsIn.set(incubator, [...(groupsIn.get(incubator) ?? []), group])
    }
    for (const groups of groupsIn.values()) {
      expect(groups.includes('finch') && groups.includes('apart')).toBe(false)
    }
  })

  it('has some nests late, one just due, some in hand, and the most of them coming', () => {
    const nowMs = endMs(room)
    const inMin = nestsOf(board)
      .filter(isFree)
      .map((nest) => dueInMin(board, nest, nowMs))
    const count = (isSo: (min: number) => boolean) =>
      inMin.filter((min) => min !== null && isSo(min)).length
    expect(count((min) => min <= -1)).toBeGreaterThanOrEqual(1)
    expect(count((min) => min > -1 && min <= 0)).toBeGreaterThanOrEqual(1)
    expect(count((min) => min <= 0)).toBeLessThan(nestsOf(board).length / 4)
    expect(nestsOf(board).length - nestsOf(board).filter(isFree).length).toBeGreaterThanOrEqual(2)
  })

  it('has a nest held and a bird of another one, each to be looked at again soon', () => {
    const holds = [
      ...nestsOf(board).flatMap(({ hold }) => hold ?? []),
      ...Object.values(board.birds).flatMap(({ hold }) => hold ?? []),
    ]
    expect(holds).toHaveLength(2)
    for (const { lookAgainAtMs } of holds) {
      const inMin = (lookAgainAtMs - endMs(room)) / minuteMs
      expect([inMin > 0, inMin <= 30]).toEqual([true, true])
    }
  })

  it('has arrivals settling, which nobody is offered and which are never late', () => {
    const settling = broodsOf(board).filter((brood) => brood[0]?.standing.type === 'settling')
    expect(settling.length).toBeGreaterThanOrEqual(1)
    for (const bird of settling.flat()) expect(birdDueAtMs(board, bird)).toBeNull()
  })

  it('has somebody on a break, who says when they are back', () => {
    const away = Object.values(board.people).filter(({ shift }) => shift === 'break')
    expect(away.map(({ backAtMs }) => (backAtMs ?? 0) > endMs(room))).toEqual([true])
  })

  it.each([
    ['over midnight', Date.UTC(2026, 5, 1, 3, 0)],
    ['over the hour that is skipped', Date.UTC(2026, 2, 8, 6, 0)],
    ['over the hour that comes twice', Date.UTC(2026, 10, 1, 5, 0)],
  ])('plays %s too', (_, foundedAtMs) => {
    const { board: other } = played(room, { ...founded, foundedAtMs })
    expect(nestsOf(other)).toHaveLength(nestsOf(board).length)
    expect(other.setAside).toEqual([])
  })
})

describe('the nestling room', () => {
  const { board } = played(nestlingRoom, founded)
  const nowMs = endMs(nestlingRoom)

  it('has 24 nests, 60 birds, 6 incubators and 9 people', () => {
    expect(nestsOf(board)).toHaveLength(24)
    expect(Object.keys(board.birds)).toHaveLength(60)
    expect(Object.keys(board.incubators)).toHaveLength(6)
    expect(Object.keys(board.people)).toHaveLength(9)
  })

  it('has two arrivals, and a quarantined brood alone in its incubator', () => {
    const arrivals = broodsOf(board).filter((brood) => brood[0]?.standing.type === 'settling')
    expect(arrivals.map((brood) => brood.length)).toEqual([3, 1])
    const quarantined = nestsOf(board).filter(({ isQuarantined }) => isQuarantined)
    expect(quarantined.map(({ label }) => label)).toEqual(['X'])
    const beside = nestsOf(board).filter((nest) => nest.incubator === quarantined[0]?.incubator)
    expect(beside).toHaveLength(1)
  })

  it('has a brood whose birds differ in interval and one whose birds differ in technique', () => {
    const mixed = broodsOf(board).filter((brood) => plansOf(brood).size > 1)
    const planOf = (bird: Bird) => (bird.plan === null ? undefined : board.plans[bird.plan])
    const kinds = mixed.map((brood) => [
      new Set(brood.map((bird) => JSON.stringify(planOf(bird)?.timing))).size,
      new Set(brood.map((bird) => planOf(bird)?.technique)).size,
    ])
    expect(kinds).toEqual([
      [2, 1],
      [1, 2],
    ])
  })

  it('has small and large songbirds, doves, pigeons and an unmarked brood of swifts', () => {
    const groups = Object.values(board.birds).map(({ species }) => speciesOf(species ?? '')?.group)
    for (const group of ['houseFinch', 'smallInsectivore', 'robinSizedSongbird'] as const) {
      expect(groups).toContain(group)
    }
    for (const group of ['dove', 'pigeon', 'swift'] as const) expect(groups).toContain(group)
    const swifts = Object.values(board.birds).filter(({ species }) => species === 'CHSW')
    expect(swifts.map(({ band }) => band)).toEqual([null, null, null])
  })

  it('has nobody late by more than a few minutes', () => {
    for (const { id } of nestsOf(board)) {
      const dueAtMs = nestDueAtMs(board, id)
      if (dueAtMs !== null) expect(lateMs(board, dueAtMs, nowMs)).toBeLessThan(10 * minuteMs)
    }
  })

  it('shows everybody who is free and may feed by gape the same nest', () => {
    const free = ['p3', 'p4'] as const
    const shown = free.map((id) => nextNest(board, id as never, nowMs)?.nest)
    expect(shown[0]).toBeDefined()
    expect(shown[1]).toBe(shown[0])
  })
})

describe('the long room', () => {
  const { board } = played(longRoom, founded)

  it('has 60 nests in 10 incubators, none of more than eight', () => {
    expect(nestsOf(board)).toHaveLength(60)
    const perIncubator = Object.keys(board.incubators).map(
      (id) => nestsOf(board).filter(({ incubator }) => incubator === id).length,
    )
    expect(perIncubator).toHaveLength(10)
    expect(Math.max(...perIncubator)).toBeLessThanOrEqual(8)
    expect(Math.min(...perIncubator)).toBeGreaterThanOrEqual(1)
  })

  it('shares nobody with the nestling room', () => {
    const names = new Set(nestlingRoom.people.map(({ name }) => name))
    expect(longRoom.people.filter(({ name }) => names.has(name))).toEqual([])
  })
})
