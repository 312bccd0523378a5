import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  answerOf,
  answerReport,
  asLooked,
  backOf,
  emptyDraft,
  isUnmarked,
  unanswered,
  withAllAte,
  withAmount,
  withBack,
  withCannotTell,
  withNotFed,
  withNotKnownWhich,
  withOutcome,
} from '../../client/hand/draft.ts'
import { microlitres, withKey, withoutLast } from '../../client/hand/figures.ts'
import { enterable, entered } from '../../client/hand/pad.ts'
import { emptyPad } from '../../client/hand/ui.ts'
import type { BirdId, NestId } from '../../shared/base/values.ts'
import { commandSchema } from '../../shared/board/commands.ts'
import { stepDown, stepUp } from '../../shared/views/amountStep.ts'
import type { BirdRow } from '../../shared/views/birdRow.ts'

const rowOf = (n: number, more: Partial<BirdRow> = {}): BirdRow => ({
  bird: `b${n}` as BirdId,
  band: null,
  place: n,
  species: 'HOFI',
  technique: 'gapeSyringe',
  planned: { unit: 'uL', n: 600 },
  cap: null,
  crop: 'notDoubted',
  hidesAmount: false,
  dueAtMs: null,
  lastFedAtMs: null,
  hold: null,
  isSettling: false,
  ...more,
})
const rows = [rowOf(1), rowOf(2), rowOf(3)]
const [red, blue] = rows as [BirdRow, BirdRow, BirdRow]
const nest = 'n1' as NestId

describe('a draft', () => {
  it('starts with nothing answered and reports nothing', () => {
    expect(unanswered(emptyDraft, rows)).toEqual(rows)
    expect(answerReport(emptyDraft, { nest, claimNo: 4, back: 3 })).toBeNull()
  })

  it('answers only what is left when all ate', () => {
    const draft = withAllAte(withOutcome(emptyDraft, blue, 'refused'), rows)
    expect(answerOf(draft, blue.bird)?.outcome).toBe('refused')
    expect(unanswered(draft, rows)).toEqual([])
    expect(draft.answers.filter(({ outcome }) => outcome === 'ate').length).toBe(2)
  })

  it('leaves a bird with a full crop out of "all ate"', () => {
    const full = rowOf(4, { crop: 'full', hidesAmount: true })
    expect(answerOf(withAllAte(emptyDraft, [red, full]), full.bird)).toBeNull()
  })

  it('keeps an untouched amount as planned and a moved one as measured', () => {
    const ate = withOutcome(emptyDraft, red, 'ate')
    expect(answerOf(ate, red.bird)?.given).toEqual({ amount: red.planned, is: 'planned' })
    const moved = withAmount(ate, red.bird, { unit: 'uL', n: 450 })
    expect(answerOf(moved, red.bird)?.given).toEqual({
      amount: { unit: 'uL', n: 450 },
      is: 'measured',
    })
  })

  it('knows no amount for a bird that took some, refused, or was not fed', () => {
    expect(answerOf(withOutcome(emptyDraft, red, 'some'), red.bird)?.given).toBeUndefined()
    expect(answerOf(withOutcome(emptyDraft, red, 'refused'), red.bird)?.given).toBeUndefined()
    expect(answerOf(withNotFed(emptyDraft, red.bird, 'asleep'), red.bird)).toEqual({
      bird: red.bird,
      outcome: 'notFed',
      reason: 'asleep',
    })
  })

  it('gives no amount for a bird whose amount is hidden', () => {
    const hidden = rowOf(4, { crop: 'cannotTell', hidesAmount: true })
    expect(answerOf(withOutcome(emptyDraft, hidden, 'ate'), hidden.bird)?.given).toBeUndefined()
  })

  it('forgets the amount of an outcome that is replaced', () => {
    const moved = withAmount(withOutcome(emptyDraft, red, 'ate'), red.bird, { unit: 'uL', n: 450 })
    expect(answerOf(withOutcome(moved, red, 'refused'), red.bird)?.given).toBeUndefined()
  })

  it('reports the count and the door that the press said', () => {
    const ate = withAllAte(emptyDraft, rows)
    expect(answerReport(ate, { nest, claimNo: 4, back: 3 })).toMatchObject({
      back: 3,
      door: 'shut',
      claimNo: 4,
    })
    const short = { ...withBack(ate, 2, 3), isDoorNotSeen: true }
    expect(answerReport(short, { nest, claimNo: 4, back: backOf(short, 3) })).toMatchObject({
      back: 2,
      door: 'notSeen',
    })
  })

  it('counts back neither below none nor above the brood', () => {
    expect(withBack(emptyDraft, -1, 3).back).toBe(0)
    expect(withBack(emptyDraft, 4, 3).back).toBe(3)
  })

  it('says no count for a feed of before, nor when called away', () => {
    const said = { ...withAllAte(emptyDraft, rows), saidAtMs: 5 }
    const report = answerReport(said, { nest, back: null })
    expect(report).toMatchObject({ saidAtMs: 5 })
    expect(report).not.toHaveProperty('back')
    const away = answerReport(withAllAte(emptyDraft, rows), { nest, claimNo: 4, back: null })
    expect(away).not.toHaveProperty('back')
  })

  it('makes reports that the edge accepts', () => {
    const draft = withNotFed(withAllAte(emptyDraft, rows), red.bird, 'cropFull')
    const reports = [
      answerReport(draft, { nest, claimNo: 4, back: 3 }),
      answerReport({ ...draft, saidAtMs: 5 }, { nest, back: null }),
      answerReport(draft, { nest, claimNo: 4, back: null }),
      answerReport(withNotKnownWhich(draft, rows, { outcome: 'refused', count: 1 }), {
        nest,
        claimNo: 4,
        back: 3,
      }),
    ]
    for (const report of reports) expect(commandSchema.safeParse(report).success).toBe(true)
  })
})

describe('an unmarked brood', () => {
  const oneRefused = withNotKnownWhich(emptyDraft, rows, { outcome: 'refused', count: 1 })

  it('is two birds or more of which none has a band', () => {
    expect(isUnmarked(rows)).toBe(true)
    expect(isUnmarked([red])).toBe(false)
    expect(isUnmarked([red, { ...blue, band: 'blue' }])).toBe(false)
  })

  it('is answered as having eaten, with how many did not', () => {
    expect(oneRefused.answers.map(({ outcome }) => outcome)).toEqual(['ate', 'ate', 'ate'])
    expect(answerReport(oneRefused, { nest, claimNo: 4, back: 3 })).toMatchObject({
      notKnownWhich: { outcome: 'refused', count: 1 },
    })
  })

  it('leaves nothing unknown where all of them did the same', () => {
    const all = withNotKnownWhich(emptyDraft, rows, { outcome: 'refused', count: 3 })
    expect(all.notKnownWhich).toBeNull()
    expect(all.answers.every(({ outcome }) => outcome === 'refused')).toBe(true)
  })

  it('leaves nothing unknown once one bird is answered by itself', () => {
    expect(withOutcome(oneRefused, red, 'some').notKnownWhich).toBeNull()
    expect(
      answerReport(withOutcome(oneRefused, red, 'some'), { nest, back: 3 }),
    ).not.toHaveProperty('notKnownWhich')
  })
})

describe('a crop that was looked at without telling', () => {
  it('is not looked at again in this draft, and hides its amount', () => {
    const look = rowOf(4, { crop: 'look', hidesAmount: true })
    const draft = withCannotTell(emptyDraft, look.bird)
    expect(asLooked(draft, [look, red])).toMatchObject([
      { crop: 'cannotTell', hidesAmount: true },
      { crop: 'notDoubted' },
    ])
    expect(asLooked(emptyDraft, [look])[0]?.crop).toBe('look')
  })
})

describe('an amount typed on a pad', () => {
  const typed = (keys: string) => [...keys].reduce(withKey, '')

  it('is none until there is a number that is not nought', () => {
    expect(microlitres('')).toBeNull()
    expect(microlitres(typed('0'))).toBeNull()
    expect(microlitres(typed('0.'))).toBeNull()
    expect(microlitres(typed('.7'))).toBe(700)
  })

  it('has at most two figures after one point, and no noughts before it', () => {
    expect(typed('0.705')).toBe('0.70')
    expect(typed('1.2.3')).toBe('1.23')
    expect(typed('05')).toBe('5')
    expect(typed('12345')).toBe('123')
    expect(microlitres(typed('0.29'))).toBe(290)
  })

  it('loses its last figure at a time', () => {
    expect(withoutLast(typed('0.7'))).toBe('0.')
    expect(withoutLast('')).toBe('')
  })
})

describe('the amount', () => {
  it('moves by small steps where little is given', () => {
    expect(stepUp({ unit: 'uL', n: 600 }).n).toBe(650)
    expect(stepDown({ unit: 'uL', n: 600 }).n).toBe(550)
    expect(stepUp({ unit: 'pieces', n: 3 }).n).toBe(4)
    expect(stepDown({ unit: 'pieces', n: 0 }).n).toBe(0)
  })

  it('comes back: down undoes up from every whole step', () => {
    const units = fc.constantFrom('uL' as const, 'mg' as const, 'pieces' as const)
    fc.assert(
      fc.property(units, fc.nat(60), (unit, taps) => {
        let amount = { unit, n: 0 }
        const path = [amount.n]
        for (let tap = 0; tap < taps; tap += 1) {
          amount = { ...stepUp(amount), unit }
          path.push(amount.n)
        }
        for (const n of path.reverse()) {
          expect(amount.n).toBe(n)
          amount = { ...stepDown(amount), unit }
        }
      }),
    )
  })
})

describe('the pad', () => {
  const typed = (digits: string, more = {}) => ({ ...emptyPad, digits, ...more })

  it('enters a PIN of four to eight figures', () => {
    expect(['123', '1234', '12345678', '123456789'].map((d) => enterable(typed(d), 'pin'))).toEqual(
      [false, true, true, false],
    )
    expect(entered(typed('1234'), 'pin')).toEqual({ type: 'signIn', pin: '1234' })
  })

  it('asks at the first sign-in for the code, then for a PIN twice', () => {
    expect(enterable(typed('12345'), 'code')).toBe(false)
    expect(entered(typed('123456'), 'code')).toMatchObject({ pad: { code: '123456', digits: '' } })
    const chosen = entered(typed('4711', { code: '123456' }), 'code')
    expect(chosen).toMatchObject({ type: 'goOn', pad: { pin: '4711' } })
    expect(entered(typed('4711', { code: '123456', pin: '4711' }), 'code')).toEqual({
      type: 'redeem',
      code: '123456',
      pin: '4711',
    })
  })

  it('has the PIN chosen anew when the two differ, and keeps the code', () => {
    expect(entered(typed('4712', { code: '123456', pin: '4711' }), 'code')).toMatchObject({
      type: 'differ',
      pad: { code: '123456', pin: null, digits: '' },
    })
  })
})
