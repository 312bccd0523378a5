// 09:36 to 09:43 of the scripted hour, mostly the lead's: an arrival released, a brood and a bird moved, a
// hold; a trainee whose mentor goes on a break, somebody whose screen is gone, and a nest nobody takes.

import { expect } from 'vitest'
import { at, i } from './crankedHouse.ts'
import { goHome, openNest, recordAllAte, tap } from './crankedPages.ts'
import { type Hour, isGone, isThere, says, turnTo, untilWritten } from './hourScreens.ts'
import { ana, ben, birds, box, cleo, kwame, mara, nests, tomas } from './hourStage.ts'

/** Tomas feeds D as long as Cleo is there; then she goes for ten minutes. */
export async function mentorOnABreak(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await turnTo(hour, tomas)
  await openNest(tablet, 'D')
  await tap(tablet, 'claim')
  await isThere(tablet, 'page-feeding')
  house.goTo('09:37:30')
  await recordAllAte(tablet)
  await expect.poll(() => house.events('RoundRecorded').at(-1)?.person).toBe(tomas)
  await turnTo(hour, cleo)
  for (const press of ['more', 'break', 'back-in-10']) await tap(tablet, press)
  await untilWritten(hour, 'BreakBegun', 1)
  await turnTo(hour, tomas)
  await says(tablet, 'mentor-away', 'Cleo, your mentor, is not here.')
  expect(await tablet.getByTestId('claim').count()).toBe(0)
  await openNest(tablet, 'C')
  await says(tablet, 'refusal', 'Cleo, your mentor, is not on shift.')
  expect(await tablet.getByTestId('claim').count()).toBe(0)
  await says(hour.wall, 'foot', 'Cleo due back 09:47')
  expect(house.events('BreakBegun')).toMatchObject([{ person: cleo, atMs: at('09:37:30') }])
}

/** Only the lead's word makes the two in the box due; then Ana feeds them. Meanwhile Ben walks out. */
export async function arrivalReleased(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await hour.ben.goto('about:blank')
  await openNest(hour.ana, 'G')
  expect(await hour.ana.getByTestId('claim').count()).toBe(0)
  await turnTo(hour, kwame)
  await openNest(tablet, 'G')
  await tap(tablet, 'release')
  await tap(tablet, 'plan-c1')
  await untilWritten(hour, 'ArrivalReleased', 1)
  expect(house.events('ArrivalReleased')).toMatchObject([{ by: kwame, plan: 'c1' }])
  await tap(hour.ana, 'claim')
  await isThere(hour.ana, 'page-feeding')
  house.goTo('09:38:30')
  await recordAllAte(hour.ana)
  await expect.poll(() => house.events('RoundRecorded').at(-1)?.nest).toBe(box)
}

/** B goes to the second incubator, F's green to A, and F is not to be fed for a quarter of an hour. */
export async function movedAndHeld(hour: Hour): Promise<void> {
  const { house, tablet, wall } = hour
  await openNest(tablet, 'B')
  for (const press of ['lead', 'move-nest', 'to-incubator-2']) await tap(tablet, press)
  await untilWritten(hour, 'NestMoved', 1)
  expect(house.events('NestMoved')).toMatchObject([{ nest: nests.B, incubator: i(2), by: kwame }])
  await wall.getByTestId('lane-2').getByTestId('nest-B').waitFor({ state: 'attached' })

  await openNest(tablet, 'F')
  const { green } = birds.F
  for (const press of ['lead', 'move-bird', `move-${green}`, 'to-nest-A']) await tap(tablet, press)
  await untilWritten(hour, 'BirdMoved', 1)
  expect(house.events('BirdMoved')).toMatchObject([{ bird: green, nest: nests.A, by: kwame }])

  house.goTo('09:39')
  await openNest(tablet, 'F')
  for (const press of ['hold', 'hold-nest', 'reason-vet to see', 'again-in-15']) {
    await tap(tablet, press)
  }
  await untilWritten(hour, 'HoldSet', 1)
  expect(house.events('HoldSet')).toMatchObject([{ nest: nests.F, hold: { reason: 'vet to see' } }])
  await wall.locator('[data-testid="nest-F"][data-state="held"]').waitFor({ state: 'attached' })
  await says(hour.desk, `hold-${nests.F}-nest`, /Look again 09:54/)
}

/** C is due at 09:36. Whoever is here is asked in turn from 09:41; who is not here is asked nothing. */
export async function askedInTurn(hour: Hour): Promise<void> {
  const { house, tablet, mara: first, ana: second } = hour
  await expect.poll(() => house.events('PersonUnreachable').at(-1)?.person).toBe(ben)
  await says(hour.wall, 'foot', /Ben/)
  await goHome(first)
  const before = house.events('OfferMade').length
  house.goTo('09:41')
  await says(first, 'page-offer', 'Can you take C?')
  await goHome(second)
  expect(await second.getByTestId('page-offer').count()).toBe(0)
  await tap(first, 'not-this')
  await says(second, 'page-offer', 'Can you take C?')
  await isGone(first, 'page-offer')
  await turnTo(hour, cleo)
  house.goTo('09:41:45')
  await isGone(second, 'page-offer')
  await says(tablet, `served-${kwame}`, 'asked: C')
  await turnTo(hour, kwame)
  await tap(tablet, 'not-this')
  await untilWritten(hour, 'LeadTold', 1)
  const offers = house.events('OfferMade').slice(before)
  expect(offers.map(({ person }) => person)).toEqual([mara, ana, kwame])
  expect(
    house
      .events('OfferEnded')
      .slice(-3)
      .map(({ how }) => how),
  ).toEqual([...['declined', 'unanswered', 'declined']])
  expect(house.events('LeadTold')).toMatchObject([{ why: 'threeAsked', nest: nests.C }])
}

/** The lead reads it, and asks Ana, who has not answered, by name. */
export async function askedByTheLead(hour: Hour): Promise<void> {
  const { house, tablet, desk } = hour
  await says(desk, 'open', /Nest C was late\. Three were asked, nobody took it\./)
  await desk.locator('[data-testid^="notice-"] [data-testid^="read-"]').click()
  await untilWritten(hour, 'NoticeSeen', 1)
  await isGone(tablet, 'notices')

  await openNest(tablet, 'C')
  for (const press of ['lead', 'ask-person']) await tap(tablet, press)
  for (const person of [ben, tomas]) {
    expect(await tablet.getByTestId(`ask-${person}`).isDisabled()).toBe(true)
  }
  expect(await tablet.getByTestId(`ask-${cleo}`).count()).toBe(0)
  await tap(tablet, `ask-${ana}`)
  await says(hour.ana, 'page-offer', 'Kwame asks: can you take C?')
  house.goTo('09:42')
  await tap(hour.ana, 'claim')
  await isThere(hour.ana, 'page-feeding')
  expect(house.events('OfferMade').at(-1)).toMatchObject({ person: ana, by: kwame })
  expect(house.events('OfferEnded').at(-1)).toMatchObject({ person: ana, how: 'taken' })
}
