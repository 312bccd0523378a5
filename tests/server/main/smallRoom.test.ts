// The demo room's morning, played through the real rules: every order is taken, and what is due, late,
// settling and held at the end is what the pages promise a newcomer.

import { describe, expect, it } from 'vitest'
import { founder, others } from '../../../demo-data/people.ts'
import { foundedAgoMin, smallRoomSteps } from '../../../demo-data/smallRoom.ts'
import {
  minuteMs,
  type NestId,
  type PersonId,
  type PrivateId,
} from '../../../shared/base/values.ts'
import { commandSchema } from '../../../shared/board/commands.ts'
import { type Board, emptyBoard } from '../../../shared/board/state.ts'
import { decide } from '../../../shared/rules/decide.ts'
import { lateMs, nestDueAtMs, readyBirds } from '../../../shared/rules/due.ts'
import { foldEvents } from '../../../shared/rules/evolve.ts'
import { foundingEvents } from '../../../shared/rules/founding.ts'
import { decideTime } from '../../../shared/rules/time.ts'

const foundedAtMs = Date.UTC(2026, 4, 9, 9, 0)
const endMs = foundedAtMs + foundedAgoMin * minuteMs
const nameRef = { id: 'x1' as PrivateId, hash: '0'.repeat(64) }

const passTime = (board: Board, nowMs: number): Board => {
  const events = decideTime(board, nowMs)
  return events.length === 0 ? board : passTime(foldEvents(board, events), nowMs)
}

function founded(): Board {
  const room = { room: 'demo', season: '2026', title: 'Demo', zone: 'UTC', civilOffsetMs: 0 }
  const hours = { opensMinute: 0, closesMinute: 1440 }
  const { role, signOffs } = founder
  return foldEvents(emptyBoard, [
    ...foundingEvents({ ...room, ...hours, nowMs: foundedAtMs }),
    {
      type: 'PersonAdded',
      v: 1,
      person: 'p1' as PersonId,
      role,
      signOffs: [...signOffs],
      name: nameRef,
    },
  ])
}

function played(): Board {
  let board = founded()
  for (const { atMin, by, command } of smallRoomSteps(foundedAtMs)) {
    const nowMs = foundedAtMs + atMin * minuteMs
    const before = passTime(board, nowMs)
    const times = { nowMs, agoMs: 0, notedAtMs: nowMs, startedAtMs: null, isBounded: false }
    const decided = decide(before, command, { by, ...times, private: nameRef })
    expect(decided, `${command.type} at ${atMin} by ${by}`).toMatchObject({ ok: true })
    if (decided.ok) board = foldEvents(before, decided.value)
  }
  return passTime(board, endMs)
}

const nest = (label: string): NestId => {
  const at = 'ABCDEFGH'.indexOf(label)
  return `n${at + 1}` as NestId
}

describe('the small demo room', () => {
  const board = played()
  const lateMin = (label: string) => {
    const dueAtMs = nestDueAtMs(board, nest(label))
    return dueAtMs === null ? null : lateMs(board, dueAtMs, endMs) / minuteMs
  }

  it('sends only commands that the edge would take', () => {
    for (const { command } of smallRoomSteps(foundedAtMs)) commandSchema.parse(command)
  })

  it('has eight nests in three incubators and five people', () => {
    const nests = Object.values(board.nests)
    expect(nests.map(({ label }) => label).join('')).toBe('ABCDEFGH')
    expect(new Set(nests.map(({ incubator }) => incubator)).size).toBe(3)
    expect(Object.values(board.people)).toHaveLength(1 + others.length)
    expect(new Set([founder, ...others].map(({ pin }) => pin)).size).toBe(1 + others.length)
  })

  it('has set nothing aside and left no nest in hand and no doubt open', () => {
    expect(board.setAside).toEqual([])
    for (const { hands, doubts } of Object.values(board.nests)) {
      expect([hands.type, doubts.length]).toEqual(['free', 0])
    }
  })

  it('has one nest late, one just due and the others coming', () => {
    expect(lateMin('E')).toBe(14)
    expect(lateMin('G')).toBe(1)
    for (const label of ['A', 'B', 'C', 'D', 'F']) expect(lateMin(label)).toBe(0)
    const soonMin = ['A', 'B', 'C', 'F'].map(
      (label) => ((nestDueAtMs(board, nest(label)) ?? 0) - endMs) / minuteMs,
    )
    expect(soonMin).toEqual([5, 4, 9, 11])
  })

  it('has an arrival settling, which is never due', () => {
    expect(lateMin('H')).toBeNull()
    expect(readyBirds(board, nest('H'), undefined, endMs)).toEqual([])
  })

  it('has one bird of a brood held, to be looked at again within the hour', () => {
    const held = Object.values(board.birds).filter(({ hold }) => hold !== null)
    expect(held.map((bird) => bird.nest)).toEqual([nest('C')])
    expect((held[0]?.hold?.lookAgainAtMs ?? 0) - endMs).toBe(30 * minuteMs)
  })

  it('gives every plan its source, and no amount over its cap', () => {
    for (const { source, planned, cap } of Object.values(board.plans)) {
      expect(source).not.toBe('')
      expect(planned && cap && planned.n <= cap.n).toBe(true)
    }
  })
})
