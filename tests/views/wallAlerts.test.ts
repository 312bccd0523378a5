import { describe, expect, it } from 'vitest'
import { minuteMs, type NestId, type PersonId, type RequestId } from '../../shared/base/values.ts'
import type { Board, Nest, Request } from '../../shared/board/state.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { boardOf, names, nowMs } from '../support/boards.ts'

const room = boardOf([
  { label: 'A', incubator: 1, fedMinutesAgo: 5 },
  { label: 'B', incubator: 1, fedMinutesAgo: 40, claimedBy: 1 },
  { label: 'C', incubator: 2, hold: 'crop full' },
])
const mira = 'p1' as PersonId
const ivo = 'p2' as PersonId

const request = (id: string, more: Partial<Request>): Request => ({
  id: id as RequestId,
  kind: 'help',
  why: 'byHand',
  nest: 'n2' as NestId,
  bird: null,
  by: ivo,
  raisedAtMs: nowMs - minuteMs,
  noteId: null,
  taken: null,
  declined: [],
  isLeadTold: false,
  ...more,
})
const withRequests = (board: Board, ...requests: readonly Request[]): Board => ({
  ...board,
  requests: Object.fromEntries(requests.map((one) => [one.id, one])),
})
function withNest(board: Board, label: string, change: Partial<Nest>): Board {
  const nest = Object.values(board.nests).find((one) => one.label === label)
  if (!nest) throw new Error(`the room has no nest ${label}`)
  return { ...board, nests: { ...board.nests, [nest.id]: { ...nest, ...change } } }
}
const alertsOf = (board: Board, atMs = nowMs) => wallView(board, names, atMs).alerts
const nestOf = (board: Board, label: string) =>
  wallView(board, names, nowMs)
    .lanes.flatMap(({ nests }) => nests)
    .find((nest) => nest.label === label)

describe('what must be acted on', () => {
  it('is nothing in a room where nobody called', () => {
    expect(alertsOf(room)).toEqual([])
  })

  it('is a call for help now, with where and who waits', () => {
    const board = withRequests(room, request('r1', {}))
    expect(alertsOf(board)).toMatchObject([
      { level: 'now', kind: 'help', label: 'B', incubatorLabel: '1', waits: 'Ivo', taken: null },
    ])
    expect(nestOf(board, 'B')?.call).toBe('help')
  })

  it('is a call from no nest, too', () => {
    expect(alertsOf(withRequests(room, request('r1', { nest: null })))).toMatchObject([
      { kind: 'help', nest: null, label: null, waits: 'Ivo' },
    ])
  })

  it('says who has it, once somebody took it', () => {
    const taken = { person: mira, atMs: nowMs }
    const board = withRequests(room, request('r1', { kind: 'fluids', taken }))
    expect(alertsOf(board)).toMatchObject([
      { kind: 'fluids', level: 'now', taken: { name: 'Mira' } },
    ])
  })

  it('is a bird that was not counted back, now', () => {
    const board = withNest(room, 'A', { short: { missing: 2, no: 7, sinceMs: nowMs - minuteMs } })
    expect(alertsOf(board)).toMatchObject([{ kind: 'short', level: 'now', label: 'A', birds: 2 }])
    expect(nestOf(board, 'A')?.short).toBe(2)
  })

  it('is a brood recorded twice, soon, and its nest warns', () => {
    const doubt = {
      no: 9,
      kind: 'twice' as const,
      owner: null,
      aboutAtMs: nowMs - 5 * minuteMs,
      raisedAtMs: nowMs - minuteMs,
      birds: Object.values(room.birds)
        .filter(({ nest }) => nest === 'n1')
        .map(({ id }) => id),
      looked: [],
      pair: [7, 8] as const,
    }
    const board = withNest(room, 'A', { doubts: [doubt] })
    expect(alertsOf(board)).toMatchObject([{ kind: 'fedTwice', level: 'soon', label: 'A' }])
    expect(nestOf(board, 'A')).toMatchObject({ isFedTwice: true })
  })

  it('is a hold nobody has looked at ten minutes after it was time, soon', () => {
    const dueAtMs = nowMs + 20 * minuteMs
    expect(alertsOf(room, dueAtMs + 10 * minuteMs - 1)).toEqual([])
    expect(alertsOf(room, dueAtMs + 10 * minuteMs)).toMatchObject([
      { kind: 'lookAgain', level: 'soon', label: 'C' },
    ])
  })

  it('stands in order: most urgent, then what nobody has, then the longest open', () => {
    const taken = { person: mira, atMs: nowMs }
    const board = withRequests(
      room,
      request('r1', { kind: 'noDroppings', raisedAtMs: nowMs - 30 * minuteMs }),
      request('r2', { taken, raisedAtMs: nowMs - 20 * minuteMs }),
      request('r3', { raisedAtMs: nowMs - 2 * minuteMs }),
      request('r4', { raisedAtMs: nowMs - 5 * minuteMs }),
    )
    expect(alertsOf(board).map(({ key }) => key)).toEqual(['r4', 'r3', 'r2', 'r1'])
  })
})

describe('an offer', () => {
  it('shows whom it asks, and nobody else', () => {
    const offer = { person: mira, by: null, madeAtMs: nowMs, endsAtMs: nowMs + 45_000 }
    expect(nestOf(withNest(room, 'A', { offer }), 'A')?.offer).toEqual({
      person: mira,
      name: 'Mira',
    })
    expect(nestOf(room, 'A')?.offer).toBeNull()
  })
})
