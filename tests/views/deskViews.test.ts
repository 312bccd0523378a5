// What the desk shows of the room: what is open, who is here, which nests stand where, and one nest.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { deskHands } from '../../shared/views/deskHands.ts'
import { deskNest } from '../../shared/views/deskNest.ts'
import { deskNests } from '../../shared/views/deskNests.ts'
import { deskOpen } from '../../shared/views/deskOpen.ts'
import { callTaken, helpCalled, offered } from '../support/callBuilder.ts'
import { onBreak, unreachable } from '../support/peopleBuilder.ts'
import {
  birdOf,
  type Clock,
  claimed,
  clock,
  doubt,
  held,
  lapsed,
  offShift,
  round,
} from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  birdsOfE,
  birdsOfF,
  calledForFluids,
  calmTeam,
  e,
  f,
  g,
  kwame,
  names,
  priya,
  tess,
} from './teamRoom.ts'

const at = (time: Clock) => clock(time)
const open = (board: Board, person: PersonId, time: Clock) =>
  deskOpen({ board, names, person, nowMs: at(time) })
const doing = (board: Board, person: PersonId, time: Clock) =>
  deskHands(board, names, at(time)).here.find((one) => one.person === person)?.doing
const labels = (board: Board, time: Clock) =>
  deskNests(board, names, at(time)).rows.map(({ label, group }) => [label, group])

describe('what is open', () => {
  it('is nothing in a calm room', () => {
    expect(open(calmTeam.board, kwame, '09:11')).toEqual({
      ...{ calls: [], shorts: [], notices: [], doubts: [], holds: [], arrivals: [] },
    })
  })

  it('has a call with who is asked, and then who has it', () => {
    const called = calmTeam.and(helpCalled({ no: 1, at: '09:10', by: ana, nest: f }))
    expect(open(called.board, kwame, '09:11').calls).toMatchObject([
      {
        ...{ kind: 'help', byName: 'Ana', taken: null, askedOf: 2 },
        place: { label: 'F', incubatorLabel: '1' },
        can: { take: true, putBack: false, resolve: true },
      },
    ])
    const taken = called.and(callTaken(1, priya, '09:11'))
    const [call] = open(taken.board, kwame, '09:12').calls
    expect(call).toMatchObject({ taken: { name: 'Priya' }, can: { take: false, resolve: true } })
    expect(open(taken.board, ben, '09:12').calls[0]?.can.resolve).toBe(false)
  })

  it('has a doubt asked quietly of its owner, and after a minute of everybody', () => {
    const claim = { nest: f, no: 4, by: ana, birds: birdsOfF, at: '09:40' } as const
    const silent = calmTeam.and(lapsed(claim, '09:54'))
    expect(open(silent.board, kwame, '09:54').doubts).toMatchObject([
      { label: 'F', ownerName: 'Ana', aboutAtMs: at('09:40'), isQuiet: true, isMine: false },
    ])
    expect(open(silent.board, kwame, '09:56').doubts[0]?.isQuiet).toBe(false)
    expect(open(silent.board, ana, '09:54').doubts[0]?.isMine).toBe(true)
  })

  it('puts a doubt that is nobody’s to the lead, but never one that two records make', () => {
    const nobodys = doubt({
      nest: e,
      no: 9,
      owner: null,
      birds: birdsOfE,
      about: '09:20',
      raised: '09:30',
    })
    expect(open(calmTeam.and(nobodys).board, kwame, '09:31').doubts[0]?.isMine).toBe(true)
    expect(open(calmTeam.and(nobodys).board, ben, '09:31').doubts[0]?.isMine).toBe(false)
    const answers = birdsOfE.map((bird) => ({ bird, outcome: 'ate' as const }))
    const again = { type: 'AnswerBirds', nest: e, answers } as const
    const { board } = calmTeam.when(again, { by: ben, at: '09:04' })
    expect(open(board, kwame, '09:06').doubts).toMatchObject([{ kind: 'twice', isMine: false }])
  })

  it('has a hold with when to look again, and says who may lift it', () => {
    const bird = birdOf(3)
    const hold = calmTeam.and(held({ nest: f, bird }, { by: ana, at: '09:10', lookAgain: '09:40' }))
    expect(open(hold.board, kwame, '09:20').holds).toMatchObject([
      { label: 'F', bird: { place: 1 }, byName: 'Ana', standing: 'quiet', canLift: true },
    ])
    expect(open(hold.board, ben, '09:51').holds[0]).toMatchObject({
      standing: 'overdue',
      canLift: false,
    })
  })

  it('tells the lead’s notices to a lead alone', () => {
    const told = calmTeam.and({
      ...{ type: 'LeadTold', v: 1, no: 1, why: 'lateTen', atMs: at('09:40'), nest: e },
    })
    expect(open(told.board, kwame, '09:41').notices).toMatchObject([{ why: 'lateTen' }])
    expect(open(told.board, ben, '09:41').notices).toEqual([])
  })
})

describe('hands', () => {
  it('are free, or have one thing, or are away', () => {
    const room = calmTeam.and(
      claimed({ nest: e, no: 4, by: ana, birds: birdsOfE, at: '09:30' }),
      offered(f, ben, '09:42'),
      onBreak(priya, '09:30'),
    )
    expect(doing(room.board, ana, '09:43')).toMatchObject({ type: 'claim', label: 'E' })
    expect(doing(room.board, ben, '09:43')).toMatchObject({ type: 'asked', label: 'F' })
    expect(doing(room.board, priya, '09:43')).toMatchObject({ type: 'break' })
    expect(doing(room.board, kwame, '09:43')).toEqual({ type: 'free' })
    expect(doing(room.board, tess, '09:43')).toEqual({ type: 'free' })
  })

  it('of a trainee wait while the mentor is away, who is named', () => {
    const room = calmTeam.and(onBreak(kwame, '09:30'))
    expect(doing(room.board, tess, '09:31')).toEqual({ type: 'mentorAway' })
    const tessa = deskHands(room.board, names, at('09:31')).here.find((one) => one.person === tess)
    expect(tessa?.mentor).toEqual({ person: kwame, name: 'Kwame' })
  })

  it('that nobody can reach are not free, and full ones stay full', () => {
    const room = calmTeam.and(
      unreachable(ben, '09:20'),
      claimed({ nest: e, no: 4, by: ana, birds: birdsOfE, at: '09:30' }),
      unreachable(ana, '09:32'),
    )
    expect(doing(room.board, ben, '09:33')).toEqual({ type: 'unreachable', sinceMs: at('09:20') })
    const anas = deskHands(room.board, names, at('09:33')).here.find((one) => one.person === ana)
    expect(anas).toMatchObject({ doing: { type: 'claim' }, unreachableSinceMs: at('09:32') })
  })

  it('off shift are a list of their own; who leads is named while here', () => {
    const room = calmTeam.and(offShift(kwame, '09:10'))
    const hands = deskHands(room.board, names, at('09:11'))
    expect(hands.off.map(({ name }) => name)).toEqual(['Kwame'])
    expect(hands.leads).toEqual([])
    expect(deskHands(calmTeam.board, names, at('09:11')).leads).toEqual(['Kwame'])
  })
})

describe('the table of nests', () => {
  it('pins trouble above the latest, and each nest stands under one filter', () => {
    const room = calmTeam.and(
      claimed({ nest: g, no: 4, by: ana, birds: [birdOf(7)], at: '09:36' }),
      held({ nest: f }, { by: kwame, at: '09:10', lookAgain: '10:40' }),
    )
    expect(labels(room.board, '09:40')).toEqual([
      ['E', 'late'],
      ['G', 'hands'],
      ['F', 'hold'],
    ])
    const called = calmTeam.and(calledForFluids('09:10'))
    expect(deskNests(called.board, names, at('09:40')).rows[0]).toMatchObject({
      label: 'F',
      trouble: 'fluids',
    })
  })

  it('counts every nest once', () => {
    const { counts, rows } = deskNests(calmTeam.board, names, at('09:32'))
    expect(Object.values(counts).reduce((sum, n) => sum + n, 0)).toBe(rows.length)
    expect(counts).toEqual({ late: 1, hands: 0, coming: 2, hold: 0 })
  })
})

describe('one nest', () => {
  const nestOf = (board: Board, person: PersonId, time: Clock) =>
    deskNest(board, names, { nest: f, person, nowMs: at(time) })

  it('lists each bird’s last three feeds, latest first, and its records likewise', () => {
    const room = calmTeam.and(
      ...[4, 5, 6].map((no) =>
        round({ nest: f, no, by: ben, birds: birdsOfF, at: `1${no}:00` as Clock }),
      ),
    )
    const view = nestOf(room.board, kwame, '16:10')
    expect(view?.birds[0]?.feeds.map(({ no }) => no)).toEqual([6, 5, 4])
    expect(view?.rounds.map(({ no }) => no)).toEqual([6, 5, 4, 2])
    expect(view?.rounds[0]?.answers).toHaveLength(4)
  })

  it('lets a lead ask whoever is free, and nobody else ask anybody', () => {
    const late = nestOf(calmTeam.board, kwame, '09:40')
    expect(late?.askable.map(({ name }) => name)).toEqual(['Ana', 'Ben', 'Priya', 'Tess'])
    expect(late?.can.lead).toBe(true)
    const volunteers = nestOf(calmTeam.board, ben, '09:40')
    expect(volunteers?.askable).toEqual([])
    expect(volunteers?.can).toEqual({ lead: false, lift: false, release: false })
  })

  it('is nothing where the nest is gone', () => {
    const gone = { ...calmTeam.board, nests: {} }
    expect(nestOf(gone, kwame, '09:40')).toBeNull()
  })
})
