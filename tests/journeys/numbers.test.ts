// Four hours of an invented room told to the minute: a visit nobody recorded, a record on the wrong nest,
// an arrival, and a technique only one person is signed off for. The clock is turned by hand.

import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import type { BirdId, NestId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { launchBrowser } from '../support/browser.ts'
import {
  at,
  type Clock,
  CrankedHouse,
  c,
  everyMinutes,
  i,
  p,
  type Stage,
  type Told,
} from './crankedHouse.ts'
import { handOf, openNest, recordAllAte, tap, text, wallOf } from './crankedPages.ts'

let browser: Browser
let house: CrankedHouse

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser.close())
afterEach(async () => {
  for (const context of browser.contexts()) await context.close()
  await house.close()
})

const odile = { name: 'Odile', role: 'permitHolder', signOffs: [] } as const
const feeder = (name: string) => ({ name, role: 'volunteer', signOffs: ['gapeSyringe'] }) as const

const begins = (...people: readonly number[]): readonly Told[] =>
  people.map((n) => ({ at: '07:00', by: p(n), command: { type: 'BeginShift', v: 1 } }))

const bands = ['red', 'blue', 'green', 'yellow'] as const
const admits = (label: string, birds: number, time: Clock, species = 'HOFI'): Told => ({
  ...{ at: time, by: p(1) },
  command: {
    ...{ type: 'AdmitBrood', v: 1, label, incubator: i(1), quarantined: false },
    birds: bands.slice(0, birds).map((band) => ({ band, species, plan: c(1) })),
  },
})

const n = (no: number) => `n${no}` as NestId
const b = (no: number) => `b${no}` as BirdId

/** Fed by somebody at that time, as they say themselves: claimed or not, it is on record. */
const fed = (time: Clock, by: number, nest: number, birds: readonly number[]): Told => ({
  ...{ at: time, by: p(by) },
  command: {
    ...{ type: 'AnswerBirds', v: 1, nest: n(nest) },
    answers: birds.map((bird) => ({ bird: b(bird), outcome: 'ate' as const })),
  },
})

const usesTap: Told = {
  ...{ at: '07:00', by: p(1) },
  command: { type: 'SetRoom', v: 1, usesStartTap: true } satisfies Command,
}

describe('a visit nobody recorded', () => {
  const stage: Stage = {
    people: [odile, feeder('Ana'), feeder('Ben')],
    plans: [everyMinutes(30)],
    incubators: 1,
    past: [usesTap, ...begins(2, 3), admits('F', 4, '08:39'), fed('08:40', 2, 1, [1, 2, 3, 4])],
    now: '09:10',
  }

  /** Ana opens F at 09:10 and says no more; Ben has it in hand at 09:26, still without an amount. */
  async function untilBenHasIt() {
    house = await CrankedHouse.open(stage)
    const ana = await handOf(browser, house, 'p2')
    const ben = await handOf(browser, house, 'p3')
    const wall = await wallOf(browser, house)
    await tap(ana, 'claim')
    await tap(ana, 'open')
    await expect.poll(() => house.events('FeedStarted').length).toBe(1)

    // Four birds: 2 × (half a minute + 4 × a minute and a half) from the tap.
    house.goTo('09:23')
    await ana.getByTestId('question-F').waitFor()
    expect(await text(ana, 'question-F')).toContain('09:10')
    await ben.getByTestId('nothing').waitFor()
    expect(await ben.getByTestId('claim').count()).toBe(0)
    house.goTo('09:23:59')
    await expect.poll(() => text(ben, 'clock')).toBe('09:23')
    expect(await ben.getByTestId('look-first').count()).toBe(0)

    house.goTo('09:24')
    await ben.getByTestId('look-first').waitFor()
    expect(await text(ben, 'page-offer')).toMatch(/[Pp]erhaps fed 09:10 by Ana/)
    house.goTo('09:26')
    await tap(ben, 'look-first')
    await ben.getByTestId('page-feeding').waitFor()
    expect(await text(ben, 'page-feeding')).not.toContain('mL')
    return { ana, ben, wall }
  }

  it('found full, is a feed for the clock and none for the count', async () => {
    const { ben } = await untilBenHasIt()
    const before = house.events('RoundRecorded').length
    await tap(ben, 'all-full')
    await ben.getByTestId('all-seen-full').waitFor()
    await tap(ben, 'all-seen-full')
    await ben.getByTestId('page-next').waitFor()
    await openNest(ben, 'F')
    expect(house.events('RoundRecorded').length).toBe(before)
    expect(await text(ben, 'page-nest')).toContain('09:40')
    expect(house.events('DoubtRaised').filter(({ kind }) => kind === 'twice')).toEqual([])
  })

  it('found empty, is fed at 09:26 and due at 09:56', async () => {
    const { ben } = await untilBenHasIt()
    await tap(ben, 'all-empty')
    await ben.getByTestId('all-ate').waitFor()
    house.goTo('09:29')
    await recordAllAte(ben)
    await openNest(ben, 'F')
    expect(await text(ben, 'page-nest')).toContain('09:56')
    const [last] = house.events('RoundRecorded').slice(-1)
    expect(last?.startedAtMs).toBe(at('09:26'))
    expect(house.events('DoubtRaised').filter(({ kind }) => kind === 'twice')).toEqual([])
  })
})

describe('a record on the wrong nest', () => {
  it('is put onto the one really fed, and both are due anew', async () => {
    house = await CrankedHouse.open({
      people: [odile, feeder('Ana'), feeder('Ben')],
      plans: [everyMinutes(30)],
      incubators: 1,
      past: [
        ...begins(2),
        ...[admits('E', 2, '13:37'), admits('F', 2, '13:37')],
        ...[fed('13:38', 2, 2, [3, 4]), fed('13:40', 2, 1, [1, 2])],
      ],
      now: '14:10',
    })
    const ana = await handOf(browser, house, 'p2')
    const wall = await wallOf(browser, house)
    await openNest(ana, 'E')
    await tap(ana, 'claim')
    await ana.getByTestId('page-feeding').waitFor()
    house.goTo('14:12')
    await recordAllAte(ana)
    const [onE] = house.events('RoundRecorded').slice(-1)
    expect(onE).toMatchObject({ nest: n(1), startedAtMs: at('14:10') })

    house.goTo('14:22')
    await openNest(ana, 'E')
    await tap(ana, `mend-${onE?.no}`)
    await tap(ana, 'other-nest')
    await tap(ana, 'fed-nest-F')
    await expect.poll(() => house.events('RoundMoved').length).toBe(1)
    const [onF] = house.events('RoundRecorded').slice(-1)
    expect(onF).toMatchObject({ nest: n(2), startedAtMs: at('14:10'), person: p(2) })
    await expect.poll(() => text(wall, 'late-count')).toMatch(/1 late/)
    await expect.poll(() => ana.locator('main, .screen').first().textContent()).toMatch(/E\s*12/)
    await openNest(ana, 'F')
    expect(await text(ana, 'page-nest')).toContain('14:40')
    expect(house.events('DoubtRaised').filter(({ kind }) => kind === 'twice')).toEqual([])
    // Nothing is rewritten: the first record stands in the journal as it was made.
    expect(house.events('RoundRecorded').find(({ no }) => no === onE?.no)).toEqual(onE)
  })
})

describe('an arrival', () => {
  it('is warmed, looked at, asked about once, and due only when released', async () => {
    house = await CrankedHouse.open({
      people: [
        odile,
        feeder('Ana'),
        { name: 'Mara', role: 'volunteer', signOffs: ['gapeSyringe', 'fluids'] },
      ],
      plans: [everyMinutes(30)],
      incubators: 1,
      past: begins(2, 3),
      now: '13:02',
    })
    const ana = await handOf(browser, house, 'p2')
    const mara = await handOf(browser, house, 'p3')
    const wall = await wallOf(browser, house)
    await tap(ana, 'more')
    for (const press of ['box', 'box-3', 'box-small', 'box-incubator-1', 'box-save']) {
      await tap(ana, press)
    }
    await expect.poll(() => house.events('NestOpened').length).toBe(1)
    const [box] = house.events('NestOpened')
    expect(box).toMatchObject({ atMs: at('13:02'), lookDueAtMs: at('13:22') })
    await ana.getByTestId('page-next').or(ana.getByTestId('page-nest')).waitFor()
    await ana.reload()
    await ana.getByTestId('nothing').waitFor()
    await openNest(ana, box?.label ?? '')
    expect(await text(ana, 'page-nest')).toMatch(/[Ww]arming/)
    expect(await text(ana, 'page-nest')).toContain('13:22')
    expect(await ana.getByTestId('claim').count()).toBe(0)

    house.goTo('13:20')
    await openNest(mara, box?.label ?? '')
    await tap(mara, 'no-droppings')
    house.goTo('13:25')
    for (const bird of box?.birds ?? []) {
      await mara.getByTestId('page-nest').waitFor()
      await tap(mara, 'fluids')
      await tap(mara, `fluids-${bird.id}`)
      await mara.locator('[data-testid^="fluid-"]').first().click()
      await tap(mara, 'route-byMouth')
      await tap(mara, 'warmed')
      await tap(mara, 'how-much')
      for (const key of ['key-0', 'key-point', 'key-2']) await tap(mara, key)
      await tap(mara, 'gave')
    }
    await expect.poll(() => house.events('FluidsGiven').length).toBe(3)

    house.goTo('14:24:59')
    await expect.poll(() => text(ana, 'clock')).toBe('14:24')
    expect(house.events('RequestRaised')).toEqual([])
    house.goTo('14:25')
    await mara.reload()
    await mara.getByTestId('page-call').waitFor()
    expect(await ana.getByTestId('page-call').count()).toBe(0)
    house.goTo('14:40')
    expect(house.events('RequestRaised').map(({ kind }) => kind)).toEqual(['noDroppings'])
    expect(await text(wall, 'late-count')).toMatch(/none late/)

    await tap(mara, 'coming')
    await tap(mara, 'to-nest')
    await tap(mara, 'release')
    await tap(mara, 'plan-c1')
    await expect.poll(() => house.events('ArrivalReleased').length).toBe(1)
    await ana.reload()
    await ana.getByTestId('claim').waitFor()
    expect(await text(ana, 'next-label')).toContain(box?.label)
    expect(await text(wall, 'late-count')).toMatch(/none late/)
  })
})

describe('a technique one person is signed off for', () => {
  it('is offered to nobody else, and the lead is told once when that person is away', async () => {
    const doves = everyMinutes(120, { technique: 'cropTube', earlyPercent: 0, label: 'doves' })
    const nests = ['A', 'B', 'C', 'D', 'E']
    house = await CrankedHouse.open({
      people: [
        odile,
        { name: 'Iris', role: 'volunteer', signOffs: ['gapeSyringe', 'cropTube'] },
        { name: 'Kwame', role: 'lead', signOffs: ['gapeSyringe'] },
        ...[feeder('Ana'), feeder('Ben')],
      ],
      plans: [doves],
      incubators: 1,
      past: [
        ...begins(2, 3, 4, 5),
        ...nests.map((label) => admits(label, 1, '08:09', 'MODO')),
        ...nests.map((_, at) => fed(at === 0 ? '08:10' : '08:12', 2, at + 1, [at + 1])),
      ],
      now: '10:09',
    })
    const iris = await handOf(browser, house, 'p2')
    const others = [
      await handOf(browser, house, 'p3'),
      await handOf(browser, house, 'p4'),
      await handOf(browser, house, 'p5'),
    ]
    await tap(iris, 'more')
    await tap(iris, 'break')
    await tap(iris, 'back-unknown')
    await expect.poll(() => house.events('BreakBegun').length).toBe(1)

    // A falls due at 10:10.
    house.goTo('10:19:59')
    for (const page of others) await page.getByTestId('nothing').waitFor()
    expect(house.events('OfferMade')).toEqual([])
    expect(house.events('LeadTold')).toEqual([])
    house.goTo('10:20')
    await expect.poll(() => house.events('LeadTold').length).toBe(1)
    expect(house.events('LeadTold')).toMatchObject([{ nest: n(1), why: 'lateTen' }])
    house.goTo('10:20:59')
    expect(house.events('LeadTold').length).toBe(1)
    expect(house.events('OfferMade')).toEqual([])

    const [, ana] = others
    if (!ana) throw new Error('nobody else is there')
    await openNest(ana, 'A')
    expect(await ana.getByTestId('claim').count()).toBe(0)
    expect(await text(ana, 'refusal')).toContain('Iris')
  })
})
