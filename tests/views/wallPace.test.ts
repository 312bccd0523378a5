import { describe, expect, it } from 'vitest'
import { paceWords } from '../../client/ui/paceWords.ts'
import { hourMs, minuteMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { boardOf, calmRoom, names, nowMs } from '../support/boards.ts'

const paceOf = (board: Board, atMs = nowMs) => wallView(board, names, atMs).pace
/** Nests so many minutes after their last feed, on a plan of thirty. */
const room = (...fed: readonly number[]) =>
  boardOf(fed.map((fedMinutesAgo, at) => ({ label: `N${at}`, incubator: 1, fedMinutesAgo })))
const opensAtMs = Date.UTC(2026, 5, 13, 6)
const closesAtMs = Date.UTC(2026, 5, 13, 20)

describe('the line of pace', () => {
  it('says keeping up while nothing is late', () => {
    expect(paceOf(calmRoom)).toEqual({ type: 'keepingUp' })
  })

  it('is the mean lateness of the late nests, and of no others', () => {
    expect(paceOf(room(36, 40, 5, 10))).toEqual({ type: 'behind', minutes: 8 })
  })

  it('is not said below five minutes', () => {
    expect(paceOf(room(34, 34))).toEqual({ type: 'keepingUp' })
    expect(paceOf(room(35, 35))).toEqual({ type: 'behind', minutes: 5 })
  })

  it('counts what was due at opening and was not fed since, in the opening round', () => {
    const board = room(200, 300, 240, 190)
    // 200 minutes before 10:24 is 07:04, so fed since opening; two were due when the room opened.
    const atMs = opensAtMs + 10 * minuteMs
    expect(paceOf(board, atMs)).toEqual({ type: 'openingRound', left: 2, of: 4 })
  })

  it('ends the opening round when every nest was fed, or after two hours', () => {
    expect(paceOf(room(180, 179), opensAtMs + 30 * minuteMs)).toEqual({ type: 'keepingUp' })
    expect(paceOf(room(300), opensAtMs + 2 * hourMs)).toMatchObject({ type: 'behind' })
  })

  it('counts what is fed once more before lights out in the last hour', () => {
    const fedAt = (minutes: number) => (nowMs - closesAtMs) / minuteMs + minutes
    const board = room(fedAt(40), fedAt(35), fedAt(20), fedAt(10))
    // Forty minutes before closing, fed that long ago: due 10 minutes before, 5 before, 10 after, 20 after.
    const atMs = closesAtMs - 5 * minuteMs
    expect(paceOf(board, atMs)).toEqual({ type: 'lastRound', left: 2, closesAtMs })
  })

  it('has no last round a moment more than an hour before lights out', () => {
    expect(paceOf(calmRoom, closesAtMs - hourMs - 1).type).not.toBe('lastRound')
    expect(paceOf(calmRoom, closesAtMs - hourMs).type).toBe('lastRound')
  })

  it('is silent about pace while the room is closed', () => {
    expect(paceOf(calmRoom, closesAtMs)).toEqual({ type: 'closed' })
  })
})

describe('its words', () => {
  const time = () => '21:00'
  it.each([
    [{ type: 'keepingUp' } as const, 'Keeping up.'],
    [{ type: 'behind', minutes: 9 } as const, '9 minutes behind.'],
    [
      { type: 'openingRound', left: 3, of: 24 } as const,
      'Opening round: 3 of 24 nests still to feed.',
    ],
    [{ type: 'lastRound', left: 1, closesAtMs } as const, 'Last round: 1 nest to feed by 21:00.'],
    [
      { type: 'lastRound', left: 0, closesAtMs } as const,
      'Last round: all are fed. Lights out 21:00.',
    ],
  ])('are one sentence for %j', (pace, words) => {
    expect(paceWords(pace, time)).toBe(words)
  })
})
