// What a handheld is to be noticed for, from what its session knows.

import { describe, expect, it } from 'vitest'
import { Attention } from '../../client/attention/attention.ts'
import { Attending, momentOf, type Seen } from '../../client/hand/attending.ts'
import type { NestId, PersonId, RequestId } from '../../shared/base/values.ts'
import type { Board, Request } from '../../shared/board/state.ts'
import { boardOf, nowMs } from '../support/boards.ts'
import { FakeAttention } from '../support/fakeAttention.ts'

const [mira, jonas, priya] = ['p1', 'p3', 'p5'] as [PersonId, PersonId, PersonId]
/** Jonas has A in hand; B lives in the same incubator. */
const room = boardOf([
  { label: 'A', incubator: 1, fedMinutesAgo: 40, claimedBy: 2 },
  { label: 'B', incubator: 1, fedMinutesAgo: 10 },
  { label: 'C', incubator: 2, fedMinutesAgo: 10 },
])
const [a, b, c] = ['n1', 'n2', 'n3'] as [NestId, NestId, NestId]

const withRequest = (board: Board, more: Partial<Request>): Board => {
  const id = 'r1' as RequestId
  const request: Request = {
    ...{ id, kind: 'fluids', why: 'refusedTwice', nest: c, bird: null, by: null },
    ...{ raisedAtMs: nowMs, noteId: null, taken: null, declined: [], isLeadTold: false },
    ...more,
  }
  return { ...board, requests: { [id]: request } }
}

const withShort = (board: Board, nest: NestId): Board => {
  const one = board.nests[nest]
  if (!one) throw new Error('the fixture has this nest')
  const short = { missing: 1, no: 7, sinceMs: nowMs }
  return { ...board, nests: { ...board.nests, [nest]: { ...one, short } } }
}

type Pending = Seen['snapshot']['pending']

const seen = (
  board: Board | null,
  signedIn: readonly PersonId[],
  more: Partial<Seen> = {},
): Seen => ({
  snapshot: { board, signedIn, liveness: { status: 'live' }, pending: [], stuck: [] },
  place: 'corridor',
  monoNowMs: 0,
  ...more,
})

describe('the moment of a handheld', () => {
  it('is one of full hands while anybody signed in on it holds a nest', () => {
    expect(momentOf(seen(room, [priya])).around.holdsClaim).toBe(false)
    expect(momentOf(seen(room, [priya, jonas])).around.holdsClaim).toBe(true)
  })

  it('is dark while the room is closed', () => {
    const closed = { ...room, room: { ...room.room, isClosed: true } }
    expect(momentOf(seen(closed, [priya])).around.isDark).toBe(true)
    expect(momentOf(seen(null, [])).around.isDark).toBe(false)
  })

  it('has a call for those it is put to, until one of them has taken it', () => {
    const board = withRequest(room, {})
    expect(momentOf(seen(board, [priya])).calls).toEqual([
      { key: 'asked r1', change: { type: 'asked' } },
    ])
    expect(momentOf(seen(board, [jonas])).calls).toEqual([])
    const taken = withRequest(room, { taken: { person: mira, atMs: nowMs } })
    expect(momentOf(seen(taken, [priya])).calls).toEqual([])
  })

  it('reaches full hands for the very nest in them, unless they called themselves', () => {
    const board = withRequest(room, { kind: 'help', nest: a, by: mira })
    const now = { type: 'alert', level: 'now', isForMyNest: true }
    expect(momentOf(seen(board, [jonas])).calls).toEqual([{ key: 'nest r1', change: now }])
    const own = withRequest(room, { kind: 'help', nest: a, by: jonas })
    expect(momentOf(seen(own, [jonas])).calls).toEqual([])
  })

  it('reaches full hands for a bird that is loose in their incubator, not in another', () => {
    expect(momentOf(seen(withShort(room, b), [jonas])).calls).toMatchObject([
      { change: { level: 'now', isForMyNest: true } },
    ])
    expect(momentOf(seen(withShort(room, c), [jonas])).calls).toEqual([])
    expect(momentOf(seen(withShort(room, b), [priya])).calls).toEqual([])
  })
})

describe('a record', () => {
  const entry = (
    n: number,
    state: Pending[number]['state'],
    kind: 'ask' | 'report' = 'report',
  ) => ({
    ...{ n, kind, by: priya, state, agoMs: 0, notedAtMs: nowMs },
    body: { type: 'BirdFound' as const, v: 1 as const, nest: a },
  })
  const attending = () => {
    const device = new FakeAttention()
    return { device, attending: new Attending(new Attention(device)) }
  }
  const withPending = (pending: Pending, stuck: readonly { readonly n: number }[] = []): Seen => {
    const now = seen(room, [priya])
    return { ...now, snapshot: { ...now.snapshot, pending, stuck: stuck as never } }
  }

  it('is felt when the room has answered it, and not before', () => {
    const { device, attending: screen } = attending()
    screen.see(withPending([entry(1, 'waiting')]))
    screen.see(withPending([entry(1, 'sent')]))
    expect(device.taken()).toEqual([])
    screen.see(withPending([entry(1, 'answered')]))
    expect(device.taken()).toEqual(['sound saved', 'vibrate saved'])
    screen.see(withPending([]))
    expect(device.taken()).toEqual([])
  })

  it('is not felt when it was not taken, nor when it was only asked', () => {
    const { device, attending: screen } = attending()
    screen.see(withPending([entry(1, 'sent'), entry(2, 'sent', 'ask')]))
    screen.see(withPending([], [{ n: 1 }]))
    expect(device.taken()).toEqual([])
  })
})
