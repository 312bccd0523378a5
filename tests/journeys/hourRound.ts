// 09:00 to 09:12 of the scripted hour, the round itself: two reach for one nest, a feed in three taps, one
// recorded twice, help at a nest, called away, and a brood of which one refused.

import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { at } from './crankedHouse.ts'
import { openNest, recordAllAte, tap, text } from './crankedPages.ts'
import { type Hour, isGone, isThere, says, turnTo, untilWritten } from './hourScreens.ts'
import { ana, ben, birds, cleo, kwame, mara, nests, tomas } from './hourStage.ts'

/** On a tablet each turns to themselves by a tap on their name, and enters nothing a second time. */
export async function threeOnOneTablet(hour: Hour): Promise<void> {
  const { tablet } = hour
  for (const person of [cleo, tomas, kwame]) {
    await turnTo(hour, person)
    await isThere(tablet, 'page-next')
    expect(await tablet.getByTestId('page-pin').count()).toBe(0)
  }
}

/** Both are shown A. Ben has not heard yet that Ana has it when he asks. */
export async function twoOnOneNest(hour: Hour): Promise<void> {
  const { house, wall, links } = hour
  for (const page of [hour.ana, hour.ben]) await says(page, 'next-label', 'A')
  links.ben.hold()
  await tap(hour.ana, 'claim')
  await isThere(hour.ana, 'page-feeding')
  await tap(hour.ben, 'claim')
  links.ben.mend()
  await says(hour.ben, 'notice', /Ana has it since 09:00/)
  await says(hour.ben, 'next-label', 'B')
  expect(house.events('NestClaimed').map(({ person }) => person)).toEqual([ana])
  await wall.locator('[data-testid="nest-A"][data-state="claimed"]').waitFor()
  await says(wall, 'nest-A', 'Ana')
}

/** The first of the three was the claim. The third counts, saves, and takes the next nest. */
export async function threeTaps(hour: Hour): Promise<void> {
  hour.house.goTo('09:03')
  await tap(hour.ana, 'all-ate')
  await tap(hour.ana, 'save-next')
  await says(hour.ana, 'claim-label', 'B')
  expect(hour.house.events('RoundRecorded').at(-1)).toMatchObject({
    ...{ nest: nests.A, person: ana, startedAtMs: at('09:00'), back: 2, door: 'shut' },
    answers: Object.values(birds.A).map((bird) => ({ bird, outcome: 'ate' })),
  })
  expect(hour.house.events('NestClaimed').map(({ nest }) => nest)).toEqual([nests.A, nests.B])
}

/** Mara, cut off, notes that she has just fed B; what she noted comes after Ana's own record of it. */
export async function fedByTwo(hour: Hour): Promise<void> {
  const { house, links } = hour
  await links.mara.cut()
  house.goTo('09:04')
  await openNest(hour.mara, 'B')
  for (const press of ['already-fed', 'ago-0', 'all-ate', 'save-said']) await tap(hour.mara, press)
  await says(hour.mara, 'waiting', '1')
  const before = house.events('RoundRecorded').length
  house.goTo('09:06')
  await recordAllAte(hour.ana)
  await untilWritten(hour, 'RoundRecorded', before + 1)

  links.mara.mend()
  await untilWritten(hour, 'RoundRecorded', before + 2)
  await isGone(hour.mara, 'waiting')
  const [second] = house.events('RoundRecorded').slice(-1)
  expect(second).toMatchObject({ nest: nests.B, person: mara, isSaid: true, standing: 'unclaimed' })
  expect(house.events('DoubtRaised')).toMatchObject([
    { nest: nests.B, kind: 'twice', owner: null, birds: Object.values(birds.B) },
  ])
  await openNest(hour.ana, 'B')
  await says(hour.ana, 'twice', /Recorded twice, 09:03 and 09:0\d: look before you feed/)
  await says(hour.wall, 'alert-soon', 'B')
  await says(hour.desk, 'open', /B: recorded twice/)
}

/** Ben calls from C. Mara is at another incubator with a nest in hand: her page stays what it is. */
export async function helpInOneTap(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await openNest(hour.ben, 'C')
  await tap(hour.ben, 'claim')
  await isThere(hour.ben, 'page-feeding')
  house.goTo('09:07')
  await openNest(hour.mara, 'D')
  await tap(hour.mara, 'claim')
  await isThere(hour.mara, 'page-feeding')
  house.goTo('09:08')
  await tap(hour.ben, 'help')
  await says(hour.ben, 'call-r1', /Help is called: .*Kwame/)
  expect(house.events('RequestRaised')).toMatchObject([
    { kind: 'help', nest: nests.C, by: ben, why: 'byHand' },
  ])
  await says(hour.wall, 'alert-now', 'C')
  await isThere(hour.mara, 'call-r1')
  for (const page of [hour.ben, hour.mara]) await staysAtWork(page)
  // Ana is neither trained nor the lead, and has free hands.
  expect(await hour.ana.getByTestId('page-call').count()).toBe(0)

  await turnTo(hour, kwame)
  await isThere(tablet, 'page-call')
  await tap(tablet, 'coming')
  await says(hour.ben, 'call-r1', 'Kwame is coming to nest C.')
  await says(hour.wall, 'band', 'Kwame')
  await tap(tablet, 'dealt-with')
  await tap(tablet, 'over-done together')
  await untilWritten(hour, 'RequestResolved', 1)
  await isGone(hour.ben, 'call-r1')
  await staysAtWork(hour.ben)
}

async function staysAtWork(page: Page): Promise<void> {
  expect(await page.getByTestId('page-feeding').count()).toBe(1)
  expect(await page.getByTestId('page-call').count()).toBe(0)
}

/** One bird is fed when Ben has to go; he, or anybody, comes back to the other two. */
export async function calledAway(hour: Hour): Promise<void> {
  const { house } = hour
  const { red, blue, green } = birds.C
  await tap(hour.ben, `bird-${red}`)
  await tap(hour.ben, 'outcome-ate')
  await tap(hour.ben, 'keep')
  house.goTo('09:09')
  await tap(hour.ben, 'aside')
  await tap(hour.ben, 'called-away')
  await isThere(hour.ben, 'page-next')
  await expect.poll(() => house.events('ClaimEnded').at(-1)?.how).toBe('partly')
  expect(answersAt(hour)).toEqual([[red, 'ate']])
  await openNest(hour.ben, 'C')
  await tap(hour.ben, 'claim')
  await isThere(hour.ben, 'page-feeding')
  expect(house.events('NestClaimed').at(-1)?.birds).toEqual([blue, green])
  expect(await hour.ben.getByTestId(`bird-${red}`).count()).toBe(0)
  house.goTo('09:11')
  await recordAllAte(hour.ben)
  await expect
    .poll(() => answersAt(hour))
    .toEqual([
      [blue, 'ate'],
      [green, 'ate'],
    ])
}

const answersAt = ({ house }: Hour) =>
  house
    .events('RoundRecorded')
    .at(-1)
    ?.answers.map(({ bird, outcome }) => [bird, outcome])

/** Mara has D since 09:07: five without bands, of which one refused and nobody knows which. */
export async function oneOfFiveRefused(hour: Hour): Promise<void> {
  const { mara: page } = hour
  await tap(page, 'not-all')
  await tap(page, 'count-1')
  await says(page, 'which', '1 of 5 refused, not known which')
  const before = hour.house.events('RoundRecorded').length
  await tap(page, 'save')
  await untilWritten(hour, 'RoundRecorded', before + 1)
  expect(hour.house.events('RoundRecorded').at(-1)).toMatchObject({
    ...{ nest: nests.D, startedAtMs: at('09:07') },
    notKnownWhich: { outcome: 'refused', count: 1 },
  })
  await openNest(page, 'D')
  expect(await text(page, 'page-nest')).toContain('1 of 5 refused, not known which')
  // Half of thirty minutes on, and not before.
  expect(await text(page, 'page-nest')).toContain('09:22')
  expect(await page.getByTestId('claim').count()).toBe(0)
}
