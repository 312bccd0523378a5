// A hold never lifts by itself: when its time has come, people are asked to look.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import { hourMs, minuteMs } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { Board } from '../../shared/board/state.ts'
import { lookAgains } from '../../shared/views/lookAgains.ts'
import { calmRoom, nowMs } from '../support/boards.ts'

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
