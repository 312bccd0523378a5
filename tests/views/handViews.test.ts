import { describe, expect, it } from 'vitest'
import type { BirdId, NestId, PersonId } from '../../shared/base/values.ts'
import { hourMs, minuteMs, secondMs } from '../../shared/base/values.ts'
import type { Board, Nest, Round } from '../../shared/board/state.ts'
import { calledOffView } from '../../shared/views/calledOffView.ts'
import { claimView } from '../../shared/views/claimView.ts'
import { claimWay } from '../../shared/views/claimWay.ts'
import { doubtQuestions } from '../../shared/views/doubtQuestions.ts'
import { drawnBoard } from '../../shared/views/drawnBoard.ts'
import { freeLabel } from '../../shared/views/freeLabel.ts'
import { listView } from '../../shared/views/listView.ts'
import { nestView } from '../../shared/views/nestView.ts'
import { nextView } from '../../shared/views/nextView.ts'
import { signInView } from '../../shared/views/signInView.ts'
import { undoView } from '../../shared/views/undoView.ts'
import { waitingView } from '../../shared/views/waitingView.ts'
import { boardOf, busyRoom, calmRoom, lookRoom, names, nowMs } from '../support/boards.ts'

const [mira, ivo, jonas, , priya, kofi, saba] = [1, 2, 3, 4, 5, 6, 7].map(
  (n) => `p${n}` as PersonId,
) as [PersonId, PersonId, PersonId, PersonId, PersonId, PersonId, PersonId]

const nestNamed = (board: Board, label: string): Nest => {
  const nest = Object.values(board.nests).find((one) => one.label === label)
  if (!nest) throw new Error(`the fixture has no nest ${label}`)
  return nest
}
const withNest = (board: Board, nest: Nest): Board => ({
  ...board,
  nests: { ...board.nests, [nest.id]: nest },
})

describe('the name tiles', () => {
  it('stand by name, those signed in on this device first', () => {
    const tiles = signInView(calmRoom, names, [saba])
    expect(tiles[0]).toMatchObject({ name: 'Saba', isSignedIn: true })
    expect(tiles.slice(1).map(({ name }) => name)).toEqual([
      'Ivo',
      'Jonas',
      'Kofi',
      'Lena',
      'Mira',
      'Noor',
      'Priya',
      'Wen',
    ])
  })

  it('leave out who was removed', () => {
    const person = calmRoom.people[saba]
    if (!person) throw new Error('the fixture has Saba')
    const board = {
      ...calmRoom,
      people: { ...calmRoom.people, [saba]: { ...person, isRemoved: true } },
    }
    expect(signInView(board, names, []).some(({ name }) => name === 'Saba')).toBe(false)
  })
})

describe('the next nest', () => {
  it('is the latest this person may feed, and says so', () => {
    const view = nextView(busyRoom, names, { person: jonas, nowMs })
    expect(view).toMatchObject({ type: 'nest', why: 'latest', lateMs: 14 * minuteMs })
    expect(view.type === 'nest' && view.summary.label).toBe('AG')
  })

  it('is another for a person signed off for the crop tube', () => {
    const view = nextView(busyRoom, names, { person: ivo, nowMs })
    expect(view.type === 'nest' && view.summary.label).toBe('BH')
  })

  it('brings the doubts that must be seen first', () => {
    const board = boardOf([{ label: 'G', incubator: 1, fedMinutesAgo: 45, doubtOf: 1 }])
    expect(nextView(board, names, { person: saba, nowMs })).toMatchObject({
      type: 'nest',
      doubts: [2000],
    })
  })

  it('is none for a person off shift or on a break', () => {
    expect(nextView(calmRoom, names, { person: 'p8' as PersonId, nowMs }).type).toBe('offShift')
    expect(nextView(calmRoom, names, { person: 'p9' as PersonId, nowMs })).toEqual({
      type: 'onBreak',
      backAtMs: nowMs + 16 * minuteMs,
    })
  })

  it('when there is none, is told with its time', () => {
    const board = boardOf([{ label: 'A', incubator: 1, fedMinutesAgo: 10 }])
    expect(nextView(board, names, { person: saba, nowMs })).toMatchObject({
      type: 'nothing',
      nextAtMs: nowMs + 20 * minuteMs,
      nextLabel: 'A',
    })
  })

  it('does not come while the room is closed', () => {
    const view = nextView(calmRoom, names, { person: saba, nowMs: nowMs + 11 * hourMs })
    expect(view).toMatchObject({ type: 'nothing', hours: { type: 'closed' } })
  })
})

describe('how a nest can be had', () => {
  const way = (label: string, person: PersonId, board = lookRoom) =>
    claimWay(board, { person, nest: nestNamed(board, label).id, nowMs })

  it('is refused with who has it', () => {
    expect(way('E', saba)).toMatchObject({
      type: 'refused',
      why: { code: 'NestTaken', person: ivo },
    })
  })

  it('is by looking first where somebody may have fed it', () => {
    expect(way('G', saba)).toMatchObject({ type: 'lookFirst', doubts: [2002] })
  })

  it('is by answering first where the doubt is this person’s own', () => {
    // Ivo has E in hand, so the doubt is put to somebody without a claim.
    const board = boardOf([{ label: 'G', incubator: 1, fedMinutesAgo: 45, doubtOf: 6 }])
    expect(way('G', saba, board)).toMatchObject({
      type: 'refused',
      why: { code: 'AnswerFirst' },
    })
  })

  it('is by meaning it, half an interval or less before its window', () => {
    expect(way('J', saba)).toMatchObject({
      type: 'sureEarly',
      readyAtMs: nowMs + 7 * minuteMs,
      doubts: [],
    })
  })

  it('is as an extra feed sooner than that, naming the feed it follows', () => {
    const lastFeed = Object.values(lookRoom.birds)
      .filter((bird) => bird.nest === nestNamed(lookRoom, 'H').id)
      .map((bird) => bird.feeds.at(-1)?.no ?? 0)
    expect(way('H', saba)).toMatchObject({ type: 'extra', afterFeed: Math.max(...lastFeed) })
  })

  it('names who has the sign-off this person lacks', () => {
    expect(way('K', saba)).toMatchObject({
      type: 'refused',
      why: { code: 'NothingReady', birds: [{ why: { type: 'needsSignOff', have: [mira, ivo] } }] },
    })
  })
})

describe('the claim in hand', () => {
  const claim = (board: Board, person: PersonId) => claimView(board, names, { person, nowMs })

  it('is none for free hands', () => {
    expect(claim(lookRoom, saba)).toBeNull()
  })

  it('has a row a bird, nothing answered, the plan in a line', () => {
    const view = claim(lookRoom, ivo)
    expect(view).toMatchObject({ label: 'E', brood: 6, isOpened: false, canGiveBack: false })
    expect(view?.birds.map(({ band, answered }) => ({ band, answered }))).toEqual(
      ['red', 'blue', 'yellow', 'green', 'white', 'orange'].map((band) => ({
        band,
        answered: null,
      })),
    )
    expect(view?.plans).toMatchObject([
      { label: 'Songbird formula', planned: { unit: 'uL', n: 600 } },
    ])
  })

  it('goes back without a question in its first two minutes', () => {
    expect(claim(lookRoom, kofi)?.canGiveBack).toBe(true)
  })

  it('hides amounts and asks for a look where somebody may have fed', () => {
    const view = claim(lookRoom, kofi)
    expect(view?.birds.every((row) => row.crop === 'look' && row.hidesAmount)).toBe(true)
    expect(view?.warnings).toMatchObject([{ type: 'perhapsFed', name: 'Ivo' }])
  })

  it('shows the amount again for a crop seen empty, and for no other', () => {
    const nest = nestNamed(lookRoom, 'F')
    const [empty, full, unsure] = Object.values(lookRoom.birds).filter(
      (bird) => bird.nest === nest.id,
    )
    const aboutAtMs = nest.doubts[0]?.aboutAtMs ?? 0
    if (!empty || !full || !unsure) throw new Error('the fixture has three birds in F')
    const looked = [empty.id, full.id, unsure.id]
    const board: Board = {
      ...withNest(lookRoom, {
        ...nest,
        doubts: nest.doubts.map((doubt) => ({ ...doubt, looked })),
      }),
      birds: {
        ...lookRoom.birds,
        [empty.id]: { ...empty, seenEmptyAtMs: nowMs },
        [full.id]: { ...full, seenFullAtMs: aboutAtMs },
      },
    }
    const rows = claim(board, kofi)?.birds.map(({ crop, hidesAmount }) => ({ crop, hidesAmount }))
    expect(rows).toEqual([
      { crop: 'empty', hidesAmount: false },
      { crop: 'full', hidesAmount: true },
      { crop: 'cannotTell', hidesAmount: true },
      { crop: 'look', hidesAmount: true },
    ])
  })

  it('offers more time in steps of five minutes up to half an hour from its start', () => {
    const nest = nestNamed(lookRoom, 'E')
    if (nest.hands.type !== 'held') throw new Error('the fixture has E in hand')
    const { startedAtMs } = nest.hands
    const with_ = (leaseEndsAtMs: number) =>
      claim(
        withNest(lookRoom, { ...nest, hands: { ...nest.hands, leaseEndsAtMs } as Nest['hands'] }),
        ivo,
      )?.moreTimeUntilMs
    expect(with_(startedAtMs + 12 * minuteMs)).toBe(startedAtMs + 17 * minuteMs)
    expect(with_(startedAtMs + 27 * minuteMs)).toBe(startedAtMs + 30 * minuteMs)
    expect(with_(startedAtMs + 30 * minuteMs)).toBeNull()
  })

  it('strikes out a bird that is not in it, with the reason', () => {
    const nest = nestNamed(lookRoom, 'E')
    const [first, ...rest] = Object.values(lookRoom.birds).filter((bird) => bird.nest === nest.id)
    if (!first || nest.hands.type !== 'held') throw new Error('the fixture has E in hand')
    const hold = { reason: 'crop full', by: mira, setAtMs: nowMs, lookAgainAtMs: nowMs + hourMs }
    const hands = { ...nest.hands, birds: rest.map((bird) => bird.id) }
    const board = {
      ...withNest(lookRoom, { ...nest, hands }),
      birds: { ...lookRoom.birds, [first.id]: { ...first, hold } },
    }
    const view = claim(board, ivo)
    expect(view?.birds.length).toBe(5)
    expect(view?.struck).toMatchObject([{ bird: first.id, why: 'held' }])
    expect(view?.brood).toBe(6)
  })
})

describe('the questions', () => {
  it('go to whoever had the claim, the oldest first', () => {
    expect(doubtQuestions(busyRoom, kofi)).toMatchObject([{ label: 'N', no: 2012 }])
    expect(doubtQuestions(busyRoom, jonas)).toEqual([])
  })

  it('go to the lead where nobody is known any more', () => {
    const nest = nestNamed(lookRoom, 'G')
    const board = withNest(lookRoom, {
      ...nest,
      doubts: nest.doubts.map((doubt) => ({ ...doubt, owner: null })),
    })
    expect(doubtQuestions(board, mira)).toMatchObject([{ label: 'G' }])
    expect(doubtQuestions(board, ivo)).toMatchObject([{ label: 'F' }])
  })
})

describe('the page of a nest', () => {
  const page = (label: string, person: PersonId, board = busyRoom) =>
    nestView(board, names, { nest: nestNamed(board, label).id, person, nowMs })

  it('lets the lead and whoever set a hold lift it, nobody else', () => {
    expect(page('F', mira)).toMatchObject({ holdByName: 'Mira', can: { lift: true, hold: false } })
    expect(page('F', saba)?.can.lift).toBe(false)
  })

  it('lets a lead or someone signed off for fluids release an arrival', () => {
    expect(page('AX', mira)?.can.release).toBe(true)
    expect(page('AX', priya)?.can.release).toBe(true)
    expect(page('AX', saba)?.can.release).toBe(false)
    expect(page('A', mira)?.can.release).toBe(false)
  })

  it('does not exist for a nest that is not on the board', () => {
    const of = { nest: 'n999' as NestId, person: mira, nowMs }
    expect(nestView(busyRoom, names, of)).toBeNull()
  })
})

describe('the list of nests', () => {
  it('has every nest once, those this person can take first', () => {
    const list = listView(busyRoom, names, { person: saba, nowMs })
    expect(list.length).toBe(60)
    const first = list.findIndex(({ canTake }) => !canTake)
    expect(list.slice(first).every(({ canTake }) => !canTake)).toBe(true)
    expect(list[0]?.label).toBe('AG')
  })
})

const roundBy = (person: PersonId, recordedAtMs: number, birds: readonly BirdId[]): Round => ({
  no: 9,
  person,
  startedAtMs: recordedAtMs - minuteMs,
  recordedAtMs,
  standing: 'current',
  isSaid: false,
  birds,
  back: null,
  door: null,
  marks: [],
  isTakenBack: false,
  movedTo: null,
  notKnownWhich: null,
  corrections: 0,
})

describe('undo', () => {
  const nest = nestNamed(calmRoom, 'A')
  const board = withNest(calmRoom, { ...nest, rounds: [roundBy(saba, nowMs, [])] })

  it('is offered for ten seconds to whoever recorded it', () => {
    expect(undoView(board, saba, nowMs + 9_999)).toMatchObject({ label: 'A', no: 9 })
    expect(undoView(board, saba, nowMs + 10 * secondMs)).toBeNull()
    expect(undoView(board, jonas, nowMs)).toBeNull()
  })

  it('is not offered twice', () => {
    const taken = { ...roundBy(saba, nowMs, []), isTakenBack: true }
    expect(undoView(withNest(calmRoom, { ...nest, rounds: [taken] }), saba, nowMs)).toBeNull()
  })
})

describe('a claim that ended by itself', () => {
  const nest = nestNamed(calmRoom, 'A')
  const ended = (how: 'lapsed' | 'fed') =>
    withNest(calmRoom, { ...nest, lastEnd: { claimNo: 7, person: saba, how, atMs: nowMs } })

  it('is told to its holder for two minutes', () => {
    expect(calledOffView(ended('lapsed'), saba, nowMs + minuteMs)).toMatchObject({ label: 'A' })
    expect(calledOffView(ended('lapsed'), saba, nowMs + 2 * minuteMs)).toBeNull()
    expect(calledOffView(ended('lapsed'), jonas, nowMs)).toBeNull()
  })

  it('is not told when its holder ended it', () => {
    expect(calledOffView(ended('fed'), saba, nowMs)).toBeNull()
  })
})

describe('what waits on a device', () => {
  const nest = nestNamed(lookRoom, 'E')
  const birds = Object.values(lookRoom.birds).filter((bird) => bird.nest === nest.id)
  const claimNo = nest.hands.type === 'held' ? nest.hands.claimNo : 0
  const feed = {
    type: 'AnswerBirds',
    v: 1,
    nest: nest.id,
    claimNo,
    answers: birds.map((bird, at) => ({
      bird: bird.id,
      outcome: at === 0 ? ('some' as const) : ('ate' as const),
    })),
  } as const
  const command = { ...feed, answers: [...feed.answers] }

  it('is counted, with its nest, its outcomes and the age of the oldest', () => {
    const waiting = [
      { id: '2', command: { type: 'BeginShift', v: 1 } as const, notedAtMs: nowMs },
      { id: '1', command, notedAtMs: nowMs - 7 * minuteMs },
    ]
    expect(waitingView(lookRoom, waiting, nowMs)).toMatchObject({
      count: 2,
      oldestMs: 7 * minuteMs,
      rows: [
        {
          id: '1',
          label: 'E',
          tally: [
            { outcome: 'ate', n: 5 },
            { outcome: 'some', n: 1 },
          ],
        },
        { id: '2', label: null, tally: [] },
      ],
    })
  })

  it('is drawn on the board: the claim is over and its nest fed', () => {
    const drawn = drawnBoard(lookRoom, [{ by: ivo, command, notedAtMs: nowMs }])
    expect(claimView(drawn, names, { person: ivo, nowMs })).toBeNull()
    expect(nestNamed(drawn, 'E').rounds.length).toBe(1)
    expect(nestNamed(lookRoom, 'E').rounds.length).toBe(0)
  })

  it('can be undone for ten seconds from when it was noted, saved or not', () => {
    const drawn = drawnBoard(lookRoom, [{ by: ivo, command, notedAtMs: nowMs }])
    expect(undoView(drawn, ivo, nowMs + 9_999)).toMatchObject({ label: 'E', no: claimNo })
    expect(undoView(drawn, ivo, nowMs + 10 * secondMs)).toBeNull()
  })

  it('never draws an ask before it is answered', () => {
    const ask = { type: 'ClaimNest', v: 1, nest: nestNamed(lookRoom, 'G').id } as const
    expect(drawnBoard(lookRoom, [{ by: saba, command: ask, notedAtMs: nowMs }])).toBe(lookRoom)
  })
})

describe('the label of an arrival', () => {
  it('is the first free letter, without I and O', () => {
    expect(freeLabel(boardOf([]))).toBe('A')
    expect(freeLabel(calmRoom)).toBe('AA')
    const most = [...'ABCDEFGH'].map((label) => ({ label, incubator: 1 }))
    expect(freeLabel(boardOf(most))).toBe('J')
  })
})
