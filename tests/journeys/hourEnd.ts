// 09:43 to 10:00 of the scripted hour: the server struck in mid-feed, a feed said afterwards, one put onto
// the nest really fed, the hold looked at again, and the end of a shift.

import { expect } from 'vitest'
import { at, type Clock } from './crankedHouse.ts'
import { goHome, openNest, recordAllAte, tap, text } from './crankedPages.ts'
import { type Hour, isGone, isThere, says, turnTo, untilWritten } from './hourScreens.ts'
import { ana, ben, birds, cleo, kwame, nests, tomas } from './hourStage.ts'

/** Ana has C in hand and goes on; what she notes meanwhile is there when the server is. */
export async function struckInMidFeed(hour: Hour): Promise<void> {
  const { house, ana: page, wall } = hour
  house.goTo('09:43')
  const before = house.events('RoundRecorded')
  await house.strike(async () => {
    await recordAllAte(page)
    await says(page, 'waiting', '1')
    expect(house.events('RoundRecorded')).toEqual(before)
  })
  await untilWritten(hour, 'RoundRecorded', before.length + 1)
  await isGone(page, 'waiting')
  const after = house.events('RoundRecorded')
  expect(after.slice(0, -1)).toEqual(before)
  expect(after.at(-1)).toMatchObject({ nest: nests.C, person: ana, standing: 'current' })
  expect(after.at(-1)?.startedAtMs).toBe(at('09:42'))
  for (const screen of [page, hour.desk, hour.mara, hour.tablet]) {
    await screen.locator('[data-live="live"]').waitFor()
  }
  await isGone(wall, 'not-live')
  await hour.ben.goto(`${house.origin}/hand`)
  await untilWritten(hour, 'PersonReachable', house.events('PersonUnreachable').length)
}

/** Ben fed A at 09:45, before he found a screen, and says so. */
export async function saidAfterwards(hour: Hour): Promise<void> {
  const { house, ben: page } = hour
  house.goTo('09:46')
  await openNest(page, 'A')
  for (const press of ['already-fed', 'ago-0', 'earlier']) await tap(page, press)
  await says(page, 'said-at', '09:45')
  for (const press of ['all-ate', 'save-said']) await tap(page, press)
  await expect.poll(() => house.events('RoundRecorded').at(-1)?.nest).toBe(nests.A)
  const [said] = house.events('RoundRecorded').slice(-1)
  expect(said).toMatchObject({ person: ben, isSaid: true, standing: 'unclaimed' })
  await openNest(page, 'A')
  expect(await text(page, 'page-nest')).toMatch(/09:45 Ben: 3 ate/)
  await goHome(page)
}

/** Recorded on E, within ten seconds put onto B. E is due when it was, B anew. */
export async function thatWasB(hour: Hour): Promise<void> {
  const { house, ben: page } = hour
  const doubts = house.events('DoubtRaised').length
  house.goTo('09:50')
  await openNest(page, 'E')
  await tap(page, 'claim')
  await isThere(page, 'page-feeding')
  house.goTo('09:52')
  await recordAllAte(page)
  await tap(page, 'other-nest')
  await tap(page, 'fed-nest-B')
  await untilWritten(hour, 'RoundMoved', 1)
  const [onE, onB] = house.events('RoundRecorded').slice(-2)
  expect([onE, onB]).toMatchObject([
    { nest: nests.E, startedAtMs: at('09:50') },
    { nest: nests.B, startedAtMs: at('09:50'), person: ben },
  ])
  expect(onB?.answers.map(({ bird }) => bird)).toEqual([birds.B.red, birds.B.blue])
  expect(house.events('DoubtRaised')).toHaveLength(doubts)
  await dueIs(hour, 'E', '09:58')
  await dueIs(hour, 'B', '10:20')
}

async function dueIs(hour: Hour, label: string, time: Clock): Promise<void> {
  await openNest(hour.ben, label)
  await says(hour.ben, 'page-nest', time)
}

/** The look at F that was promised for about 09:54: asked of the lead, and the hold lifted. */
export async function lookedAgainAndLifted(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await turnTo(hour, kwame)
  await goHome(tablet)
  expect(await tablet.getByTestId('look-again-F').count()).toBe(0)
  // The fifteen minutes were counted by the tablet's clock, which runs on between two heartbeats.
  house.goTo('09:55')
  await says(tablet, 'look-again-F', /vet to see/)
  await tap(tablet, 'look-again-F')
  await tap(tablet, 'lift')
  await tap(tablet, 'why-vet says so')
  await untilWritten(hour, 'HoldLifted', 1)
  expect(house.events('HoldLifted')).toMatchObject([{ nest: nests.F, why: 'vet says so' }])
  await isGone(hour.desk, `hold-${nests.F}-nest`)
  await goHome(tablet)
  expect(await tablet.getByTestId('look-again-F').count()).toBe(0)
}

/** Cleo comes back, which lets Tomas feed again; then she goes home, with what she did. */
export async function endOfAShift(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await turnTo(hour, cleo)
  await tap(tablet, 'end-break')
  await untilWritten(hour, 'BreakEnded', 1)
  await turnTo(hour, tomas)
  await isThere(tablet, 'claim')
  house.goTo('10:00')
  await turnTo(hour, cleo)
  for (const press of ['more', 'end-shift']) await tap(tablet, press)
  // F's three and B's two, each in one visit; the silent visit to B was none.
  await says(tablet, 'tally-since', '08:59')
  await says(tablet, 'tally-visits', /^2 /)
  await says(tablet, 'tally-fed', /^5 /)
  await says(tablet, 'tally-refused', /^0 /)
  await tap(tablet, 'sign-out')
  await untilWritten(hour, 'ShiftEnded', 1)
  expect(house.events('ShiftEnded')).toMatchObject([{ person: cleo, atMs: at('10:00') }])
  await isThere(tablet, 'page-people')
  // She left the tablet; the others have not.
  await tap(tablet, `tile-${kwame}`)
  await isThere(tablet, 'page-next')
  expect(await tablet.getByTestId(`served-${cleo}`).count()).toBe(0)
}
