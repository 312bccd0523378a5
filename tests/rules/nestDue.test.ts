// When a nest is due, for anybody and for one person, which of its birds are ready, and how late it is.
// Lateness counts inside feeding hours only.

import { describe, expect, it } from 'vitest'
import { type BirdId, minuteMs } from '../../shared/base/values.ts'
import { lateMs, nestDueAtMs, readyBirds } from '../../shared/rules/due.ts'
import type { Given } from '../support/given.ts'
import { type Clock, clock, dayOpened, held, round } from '../support/roomBuilder.ts'
import {
  ana,
  f1,
  f2,
  hours,
  iris,
  lena,
  mSyringe,
  mTube,
  nestF,
  nestM,
  nestS,
  room,
} from './smallRoom.ts'

const heldOnce = held({ nest: nestF, bird: f1 }, { by: lena, at: '08:50', lookAgain: '09:50' })

describe('a nest', () => {
  it('is due with its earliest bird', () => {
    const after = room.and(round({ nest: nestF, no: 9, by: iris, birds: [f2], at: '08:55' }))
    expect(nestDueAtMs(after.board, nestF)).toBe(clock('09:10'))
  })

  it('is another nest for somebody who may not feed the bird that is due first', () => {
    const tubeFirst = room.and(
      round({ nest: nestM, no: 9, by: iris, birds: [mSyringe], at: '10:40' }),
    )
    expect(nestDueAtMs(tubeFirst.board, nestM, iris)).toBe(clock('10:40'))
    expect(nestDueAtMs(tubeFirst.board, nestM, ana)).toBe(clock('11:00'))
    expect(nestDueAtMs(tubeFirst.board, nestM)).toBe(clock('10:40'))
  })

  it('leaves out birds that are held', () => {
    const after = room.and(
      heldOnce,
      round({ nest: nestF, no: 9, by: iris, birds: ['b2', 'b3', 'b4'] as BirdId[], at: '08:55' }),
    )
    expect(nestDueAtMs(after.board, nestF)).toBe(clock('09:25'))
  })

  it('with nobody to be fed is never due', () => {
    expect(nestDueAtMs(room.board, nestS)).toBeNull()
  })

  it('has for each person the ready birds they may feed', () => {
    const ids = (person: typeof ana, at: Clock) =>
      readyBirds(room.board, nestM, person, clock(at)).map(({ id }) => id)
    expect(ids(ana, '08:57:59')).toEqual([])
    expect(ids(ana, '08:58')).toEqual([mSyringe])
    expect(ids(iris, '10:39:59')).toEqual([mSyringe])
    expect(ids(iris, '10:40')).toEqual([mSyringe, mTube])
  })
})

describe('lateness', () => {
  const nextDay = room.and(dayOpened(hours, 1))
  const dayAfter = nextDay.and(dayOpened(hours, 2))
  const lateMin = (in_: Given, due: readonly [Clock, number?], now: readonly [Clock, number?]) =>
    lateMs(in_.board, clock(...due), clock(...now)) / minuteMs

  it('is nothing before and at the due time', () => {
    expect(lateMin(room, ['09:10'], ['09:00'])).toBe(0)
    expect(lateMin(room, ['09:10'], ['09:10'])).toBe(0)
  })

  it('counts minute by minute while the room is open', () => {
    expect(lateMin(room, ['09:10'], ['09:22'])).toBe(12)
  })

  it('stops at closing', () => {
    expect(lateMin(room, ['20:50'], ['23:00'])).toBe(10)
  })

  it('counts nothing before the opening', () => {
    expect(lateMin(room, ['06:30'], ['06:50'])).toBe(0)
    expect(lateMin(room, ['06:30'], ['07:05'])).toBe(5)
  })

  it('goes on at the next opening, the night left out', () => {
    expect(lateMin(nextDay, ['20:50'], ['07:10', 1])).toBe(20)
  })

  it('leaves out every night between', () => {
    expect(lateMin(dayAfter, ['20:50'], ['07:10', 2])).toBe(10 + 14 * 60 + 10)
  })
})
