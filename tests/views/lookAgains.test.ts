// A hold never lifts by itself: when its time has come, people are asked to look.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import { hourMs, minuteMs } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { Board } from '../../shared/board/state.ts'
import { lookAgains } from '../../shared/views/lookAgains.ts'
import { boardOf, calmRoom, nowMs } from '../support/boards.ts'

describe('the looks a person is asked for', () => {
  const label = 'E'
  const nest = Object.values(calmRoom.nests).find((one) => one.label === label)
  const first = nest && birdsOf(calmRoom, nest.id)[0]
  if (!nest || !first) throw new Error('the fixture has no birds in E')
  const heldBy = (by: PersonId, agoMs: number): Board => ({
    ...calmRoom,
    birds: {
      ...calmRoom.birds,
      [first.id]: {
        ...first,
        hold: { reason: 'cool to touch', by, setAtMs: 0, lookAgainAtMs: nowMs - agoMs },
      },
    },
  })
  const ofFirst = (board: Board, person: PersonId) =>
    lookAgains(board, person, nowMs).filter((one) => one.bird !== null)
  const volunteer = personWith('volunteer')
  const other = personWith('volunteer', volunteer)
  const lead = personWith('lead')

  function personWith(role: string, butNot?: PersonId): PersonId {
    const found = Object.values(calmRoom.people).find(
      (one) => one.role === role && one.id !== butNot,
    )
    if (!found) throw new Error(`the fixture has no ${role}`)
    return found.id
  }

  it('begin when it is time, for who set the hold and for the lead alone', () => {
    expect(ofFirst(heldBy(volunteer, -1), volunteer)).toEqual([])
    const asked = { nest: nest.id, label, bird: { band: first.band, place: 1 }, isOverdue: false }
    expect(ofFirst(heldBy(volunteer, 0), volunteer)).toMatchObject([asked])
    expect(ofFirst(heldBy(volunteer, 0), lead)).toMatchObject([asked])
    expect(ofFirst(heldBy(volunteer, 0), other)).toEqual([])
  })

  it('are overdue after ten minutes, and never end by themselves', () => {
    const late = ofFirst(heldBy(volunteer, 10 * minuteMs), volunteer)
    expect(late).toMatchObject([{ isOverdue: true }])
    expect(ofFirst(heldBy(volunteer, 24 * hourMs), volunteer)).toHaveLength(1)
  })
})

describe('an arrival that warms', () => {
  const room = (lookInMinutes: number): Board => {
    const board = boardOf([{ label: 'H', incubator: 1, birds: 2, settling: true }])
    const lookDueAtMs = nowMs + lookInMinutes * minuteMs
    const birds = Object.values(board.birds).map((bird) => [
      bird.id,
      { ...bird, standing: { type: 'settling', lookDueAtMs } },
    ])
    return { ...board, birds: Object.fromEntries(birds) }
  }
  const [lead, priya, saba] = ['p1', 'p5', 'p7'] as PersonId[] as [PersonId, PersonId, PersonId]

  it('is looked at once its time has come, by the lead and whoever may release it', () => {
    expect(lookAgains(room(1), lead, nowMs)).toEqual([])
    const asked = { kind: 'arrival', label: 'H', bird: null, reason: null, isOverdue: false }
    expect(lookAgains(room(0), lead, nowMs)).toMatchObject([asked])
    expect(lookAgains(room(0), priya, nowMs)).toMatchObject([asked])
    expect(lookAgains(room(0), saba, nowMs)).toEqual([])
  })

  it('is overdue after ten minutes', () => {
    expect(lookAgains(room(-10), lead, nowMs)).toMatchObject([{ isOverdue: true }])
  })
})
