import { describe, expect, it } from 'vitest'
import type { PersonId, RequestId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { callForPage, callsView, callView } from '../../shared/views/callsView.ts'
import { birdOf, type Clock, clock } from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  calledForFluids,
  calmTeam,
  e,
  f,
  g,
  kwame,
  named,
  names,
  priya,
} from './teamRoom.ts'

const r1 = 'r1' as RequestId
const standing = (board: Board, person: PersonId, time: Clock = '09:11') =>
  callsView(board, names, { person, nowMs: clock(time) }).map((call) => call.standing)
const page = (board: Board, person: PersonId, time: Clock = '09:11') =>
  callForPage(board, names, { person, nowMs: clock(time) })

describe('a call for fluids', () => {
  const called = calmTeam.and(calledForFluids('09:10'))

  it('is put to everybody signed off for fluids, and is of whoever recorded the bird last', () => {
    expect(standing(called.board, kwame)).toEqual(['putToMe'])
    expect(standing(called.board, priya)).toEqual(['putToMe'])
    expect(standing(called.board, ana)).toEqual(['ofMine'])
    expect(standing(called.board, ben)).toEqual(['others'])
  })

  it('says where, which bird, by whom and the last feeds, and never how much', () => {
    const call = callView(called.board, names, {
      request: r1,
      person: priya,
      nowMs: clock('09:11'),
    })
    expect(call).toMatchObject({
      nest: { label: 'F', incubatorLabel: '1', birds: 4 },
      bird: { band: 'b4', place: 2, species: 'HOFI' },
      byName: 'Ana',
      feeds: [{ startedAtMs: clock('09:05'), tally: [{ outcome: 'ate', n: 1 }] }],
    })
    expect(JSON.stringify(call)).not.toMatch(/given|planned|amount|uL/)
  })

  it('is taken by one: the others are let off and told who has it', () => {
    const taken = called.when({ type: 'TakeRequest', request: r1 }, { by: priya, at: '09:12' }).room
    expect(standing(taken.board, priya, '09:12')).toEqual(['mine'])
    expect(standing(taken.board, kwame, '09:12')).toEqual(['others'])
    expect(page(taken.board, kwame, '09:12')).toBeNull()
    expect(callsView(taken.board, names, { person: ana, nowMs: clock('09:12') })).toMatchObject([
      { standing: 'ofMine', taken: { name: 'Priya' }, asked: [] },
    ])
  })

  it('is no longer put to somebody who cannot, and comes to nobody’s page when it is dealt with', () => {
    const no = called.when({ type: 'DeclineRequest', request: r1 }, { by: priya, at: '09:12' }).room
    expect(standing(no.board, priya, '09:12')).toEqual(['others'])
    expect(standing(no.board, kwame, '09:12')).toEqual(['putToMe'])
    const over = no
      .when({ type: 'TakeRequest', request: r1 }, { by: kwame, at: '09:13' })
      .room.when({ type: 'ResolveRequest', request: r1 }, { by: kwame, at: '09:20' }).room
    expect(standing(over.board, kwame, '09:20')).toEqual([])
    expect(callView(over.board, names, { request: r1, person: kwame, nowMs: 0 })).toBeNull()
  })

  it('is nothing to a person who is off shift', () => {
    const gone = called.when({ type: 'EndShift' }, { by: ben, at: '09:11' }).room
    expect(standing(gone.board, ben)).toEqual([])
  })
})

describe('a call and a nest in hand', () => {
  const inHand = (nest: typeof e, by: PersonId) =>
    calmTeam
      .when({ type: 'ClaimNest', nest, sureEarly: true }, { by, at: '09:28' })
      .room.and(calledForFluids('09:29'))

  it('takes the page of free hands', () => {
    expect(page(calmTeam.and(calledForFluids('09:10')).board, priya)?.request).toBe(r1)
  })

  it('takes no page in mid-feed, though it stands among the calls', () => {
    const { board } = inHand(g, priya)
    expect(page(board, priya, '09:30')).toBeNull()
    expect(standing(board, priya, '09:30')).toEqual(['putToMe'])
  })

  it('takes it for a nest of the incubator in which they are at work', () => {
    expect(page(inHand(e, priya).board, priya, '09:30')).toMatchObject({ isHere: true })
    expect(page(inHand(f, priya).board, priya, '09:30')).toMatchObject({ isHere: true })
  })

  it('keeps the page of whoever has taken it, once their hands are free', () => {
    const both = calmTeam
      .and(calledForFluids('09:10'))
      .when({ type: 'TakeRequest', request: r1 }, { by: priya, at: '09:11' })
      .room.when({ type: 'CallHelp', nest: g }, { by: ben, at: '09:12' }).room
    expect(page(both.board, priya, '09:12')?.request).toBe(r1)
  })
})

describe('help', () => {
  const help = calmTeam.when({ type: 'CallHelp', nest: e }, { by: ben, at: '09:10' }).room

  it('may be undone by whoever called, for ten seconds', () => {
    const undo = (person: PersonId, time: Clock) =>
      callsView(help.board, names, { person, nowMs: clock(time) })[0]?.undoUntilMs
    expect(undo(ben, '09:10:09')).toBe(clock('09:10:10'))
    expect(undo(ben, '09:10:10')).toBeNull()
    expect(undo(kwame, '09:10:09')).toBeNull()
  })

  it('says whom it is put to, and may be ended by its caller and by the lead alone', () => {
    const seen = (person: PersonId) =>
      callsView(help.board, names, { person, nowMs: clock('09:11') })[0]
    expect(seen(ben)).toMatchObject({ standing: 'ofMine', isByMe: true, asked: [kwame, priya] })
    expect([ben, kwame, priya, ana].map((person) => seen(person)?.canResolve)).toEqual([
      true,
      true,
      false,
      false,
    ])
  })

  it('with a note shows the note, where this screen has been told it', () => {
    const noted = calmTeam.when(
      { type: 'CallHelp', private: { note: 'said aloud' } },
      { by: ben, at: '09:10', private: { id: 'x9' as never, hash: '0'.repeat(64) } },
    ).room
    const note = (told: typeof names) =>
      callsView(noted.board, told, { person: kwame, nowMs: clock('09:11') })[0]?.note
    expect(note(named({ ...names, x9: { note: 'Bird on the floor' } }))).toBe('Bird on the floor')
    expect(note(names)).toBeNull()
  })
})

it('the birds of a call are told apart by band and place', () => {
  const { board } = calmTeam.and(calledForFluids('09:10'))
  const call = callView(board, names, { request: r1, person: priya, nowMs: clock('09:11') })
  expect(call?.bird).toMatchObject({ bird: birdOf(4), place: 2 })
})
