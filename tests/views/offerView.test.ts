import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { nextView } from '../../shared/views/nextView.ts'
import { offerView } from '../../shared/views/offerView.ts'
import { whoToAsk } from '../../shared/views/whoToAsk.ts'
import { type Clock, clock } from '../support/roomBuilder.ts'
import { ana, ben, calmTeam, e, f, kwame, names, priya, tess } from './teamRoom.ts'

const offer = (board: Board, person: PersonId, time: Clock) =>
  offerView(board, names, { person, nowMs: clock(time) })

describe('a nest somebody is asked to take', () => {
  // At 9:34 E is four minutes late, and no offer is made by the board yet.
  const asked = calmTeam.when(
    { type: 'OfferNest', nest: e, person: ben },
    { by: kwame, at: '09:34' },
  ).room

  it('is shown to them with who asks, how late it is and how long the question stands', () => {
    expect(offer(asked.board, ben, '09:34')).toMatchObject({
      byName: 'Kwame',
      endsAtMs: clock('09:34:45'),
      next: { lateMs: clock('09:34') - clock('09:30'), birds: 2, doubts: [] },
    })
    expect(offer(asked.board, ana, '09:34')).toBeNull()
  })

  it('is asked by nobody where the board asks by itself', () => {
    const { board } = calmTeam.whenClock('09:35').room
    const [person] = Object.values(board.nests).flatMap((nest) => nest.offer?.person ?? [])
    expect(person && offer(board, person, '09:35')).toMatchObject({ by: null, byName: null })
  })

  it('is gone when its time is over, before the board has said so', () => {
    expect(offer(asked.board, ben, '09:34:44')).not.toBeNull()
    expect(offer(asked.board, ben, '09:34:45')).toBeNull()
  })

  it('does not reach somebody who has taken another nest', () => {
    const { board } = asked.when({ type: 'ClaimNest', nest: f }, { by: ben, at: '09:34:10' }).room
    expect(offer(board, ben, '09:34:11')).toBeNull()
  })
})

describe('whom a lead can ask', () => {
  const of = (person: PersonId, time: Clock) => ({ nest: e, person, nowMs: clock(time) })

  it('is everybody free who may feed it, and the others with the reason why not', () => {
    const busy = calmTeam.when({ type: 'ClaimNest', nest: f }, { by: ana, at: '09:35' }).room
    // The board has asked somebody by then; only the reasons matter here.
    const people = whoToAsk(busy.board, names, of(kwame, '09:35'))
    expect(people.find(({ person }) => person === ana)?.why).not.toBeNull()
    expect(people.some(({ person, why }) => person === priya && why === null)).toBe(true)
    expect(people.map(({ person }) => person)).not.toContain(kwame)
  })

  it('is nobody where nothing in the nest may be fed yet', () => {
    const people = whoToAsk(calmTeam.board, names, of(kwame, '09:10'))
    expect(people.every(({ why }) => why?.code === 'NothingReady')).toBe(true)
  })

  it('is nobody for a person who may not ask', () => {
    const people = whoToAsk(calmTeam.board, names, of(ana, '09:34'))
    expect(people.every(({ why }) => why?.code === 'NotAllowed')).toBe(true)
  })
})

describe('a trainee', () => {
  const next = (board: Board) => nextView(board, names, { person: tess, nowMs: clock('09:34') })

  it('is shown the next nest while the mentor is here', () => {
    expect(next(calmTeam.board).type).toBe('nest')
  })

  it('is told plainly, by name, when the mentor is away, and when none was named', () => {
    const away = calmTeam.when({ type: 'BeginBreak' }, { by: kwame, at: '09:20' }).room
    expect(next(away.board)).toEqual({ type: 'mentorAway', hasMentor: true, name: 'Kwame' })
    const none = calmTeam.and({ type: 'MentorSet', v: 1, person: tess, mentor: null })
    expect(next(none.board)).toEqual({ type: 'mentorAway', hasMentor: false, name: null })
  })
})
