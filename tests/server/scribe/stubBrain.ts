// Rules as few as the scribe's tests need, so that a change of the real ones breaks none of them: a
// nest is held for a minute or free, reports are written down, and two commands make the rules fail.

import type { Brain } from '../../../server/scribe/ports.ts'
import { no, ok, type Result } from '../../../shared/base/control.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import type { Command } from '../../../shared/board/commands.ts'
import { type RoomEvent, readEvents } from '../../../shared/board/events.ts'
import { type Board, emptyBoard, type Nest } from '../../../shared/board/state.ts'
import type { Context } from '../../../shared/rules/context.ts'
import type { Rejection } from '../../../shared/rules/rejection.ts'
import { birdOf, clock, dayOf, incubatorOf, nestOf } from '../../support/roomBuilder.ts'

export const stubLeaseMs = minuteMs
export const day = dayOf({ opens: '06:00', closes: '20:00' })
export const noon = clock('12:00')

const nest = (n: number): Nest => ({
  id: nestOf(n),
  label: String.fromCharCode(64 + n),
  incubator: incubatorOf(1),
  isQuarantined: false,
  noteId: null,
  openedAtMs: 0,
  hold: null,
  holdEndedAtMs: 0,
  hands: { type: 'free' },
  doubts: [],
  rounds: [],
  lastEnd: null,
  offer: null,
  tried: [],
  isLeadTold: false,
  short: null,
  settledTwice: [],
  fetchedFor: { visitNo: 0, fluidsAtMs: 0 },
})

export const stubBoard: Board = {
  ...emptyBoard,
  days: [day],
  nests: { [nestOf(1)]: nest(1), [nestOf(2)]: nest(2) },
}

export const stubBrain: Brain = {
  decide,
  evolve,
  decideTime,
  nextWakeAtMs,
  readEvents,
  civilOffsetEvents: (_board, offsetMs) => [{ type: 'CivilOffsetChanged', v: 1, offsetMs, day }],
}

function decide(board: Board, command: Command, context: Context): Decided {
  const { by, nowMs: atMs } = context
  switch (command.type) {
    case 'ClaimNest':
      return claim(board, command, context)
    case 'GiveBack': {
      const hands = board.nests[command.nest]?.hands
      if (hands?.type !== 'held') return ok([])
      const { nest: at, claimNo } = command
      return ok([{ type: 'ClaimEnded', v: 1, nest: at, claimNo, how: 'givenBack', atMs }])
    }
    case 'MoreTime':
      throw new Error('a rule with a mistake in it')
    case 'BeginBreak':
      return ok([{ type: 'BreakBegun', v: 1, person: by, atMs: Number.NaN }])
    case 'Weighed':
      return ok([{ ...command, by, atMs }])
    case 'IncubatorRead':
      return ok([])
    case 'AddPerson': {
      if (command.role === 'vet') return no({ code: 'NotAllowed', needs: 'permitHolder' })
      const { private: name } = context
      if (name === undefined) throw new Error('a person without a name')
      const { role, signOffs } = command
      const next = `p${Object.keys(board.people).length + 1}` as typeof by
      return ok([{ type: 'PersonAdded', v: 1, person: next, role, signOffs, name }])
    }
    case 'BirdSeen':
      return ok([
        {
          ...{ type: 'ReportSetAside', v: 1, by, atMs, why: 'birdUnknown' },
          body: JSON.parse(JSON.stringify(command)),
        },
      ])
    default:
      throw new Error(`the stub knows no ${command.type}`)
  }
}

type Decided = Result<readonly RoomEvent[], Rejection>

function claim(
  board: Board,
  command: Extract<Command, { type: 'ClaimNest' }>,
  { by, nowMs, agoMs }: Context,
): Decided {
  const hands = board.nests[command.nest]?.hands
  if (agoMs > 15_000) return no({ code: 'Expired' })
  if (hands === undefined) return no({ code: 'NestUnknown' })
  if (hands.type === 'held') {
    return no({ code: 'NestTaken', person: hands.person, sinceMs: hands.claimedAtMs })
  }
  return ok([
    {
      ...{ type: 'NestClaimed', v: 1, nest: command.nest, claimNo: board.counters.visit + 1 },
      ...{ person: by, birds: [birdOf(1)], atMs: nowMs, startedAtMs: nowMs, startIs: 'estimated' },
      leaseEndsAtMs: nowMs + stubLeaseMs,
    },
  ])
}

function evolve(board: Board, event: RoomEvent): Board {
  switch (event.type) {
    case 'NestClaimed': {
      const { claimNo, person, birds, startedAtMs, startIs, leaseEndsAtMs } = event
      const held = { claimNo, person, birds, answered: [], claimedAtMs: event.atMs, startedAtMs }
      const rest = { startIs, leaseEndsAtMs, stop: null, extraAfter: null }
      const counters = { ...board.counters, visit: claimNo }
      return { ...withHands(board, event.nest, { type: 'held', ...held, ...rest }), counters }
    }
    case 'ClaimEnded':
      return withHands(board, event.nest, { type: 'free' })
    case 'Weighed':
      return { ...board, counters: { ...board.counters, bird: board.counters.bird + 1 } }
    case 'PersonAdded': {
      const { person: id, role, signOffs, name } = event
      const shift = { shift: 'off', shiftSinceMs: 0, backAtMs: null, isRemoved: false } as const
      const person = { id, role, signOffs, nameId: name.id, ...shift }
      return { ...board, people: { ...board.people, [id]: person } }
    }
    case 'RoomFounded':
      return { ...board, days: [event.day], nests: stubBoard.nests }
    case 'RoomOpened':
      return { ...board, room: { ...board.room, openedAtMs: event.atMs } }
    case 'CivilOffsetChanged':
      return { ...board, room: { ...board.room, civilOffsetMs: event.offsetMs } }
    default:
      return board
  }
}

const withHands = (board: Board, id: Nest['id'], hands: Nest['hands']): Board => {
  const at = board.nests[id]
  return at === undefined ? board : { ...board, nests: { ...board.nests, [id]: { ...at, hands } } }
}

const heldNests = (board: Board) =>
  Object.values(board.nests)
    .flatMap(({ id, hands }) => (hands.type === 'held' ? [{ id, hands }] : []))
    .sort((a, b) => a.hands.leaseEndsAtMs - b.hands.leaseEndsAtMs)

function decideTime(board: Board, nowMs: number): readonly RoomEvent[] {
  const [first] = heldNests(board)
  if (first === undefined || first.hands.leaseEndsAtMs > nowMs) return []
  const { claimNo, leaseEndsAtMs: atMs } = first.hands
  return [{ type: 'ClaimEnded', v: 1, nest: first.id, claimNo, how: 'lapsed', atMs }]
}

function nextWakeAtMs(board: Board): number | null {
  return heldNests(board)[0]?.hands.leaseEndsAtMs ?? null
}
