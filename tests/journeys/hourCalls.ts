// 09:12 to 09:20 of the scripted hour: a bird that refuses a second time, a bird that is not counted back,
// and a box at the door.

import { expect } from 'vitest'
import { at } from './crankedHouse.ts'
import { goHome, openNest, tap } from './crankedPages.ts'
import { type Hour, hands, isGone, isThere, says, turnTo, untilWritten } from './hourScreens.ts'
import { ana, birds, box, cleo, kwame, mara, nests, tomas } from './hourStage.ts'

/** E's red refused at 08:57 and does so again; fifteen seconds after the record somebody is called. */
export async function refusesTwice(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  house.goTo('09:12')
  await openNest(hour.ben, 'E')
  await tap(hour.ben, 'claim')
  await isThere(hour.ben, 'page-feeding')
  house.goTo('09:13')
  for (const press of [`bird-${birds.E.red}`, 'outcome-refused', 'keep', 'count', 'save']) {
    await tap(hour.ben, press)
  }
  await isThere(hour.ben, 'page-next')
  await expect
    .poll(() => house.events('RoundRecorded').at(-1)?.answers[0])
    .toMatchObject({ bird: birds.E.red, outcome: 'refused' })
  house.goTo('09:13:14')
  house.goTo('09:13:15')
  await untilWritten(hour, 'RequestRaised', 2)
  expect(house.events('RequestRaised').at(-1)).toMatchObject({
    ...{ kind: 'fluids', why: 'refusedTwice', nest: nests.E, bird: birds.E.red, by: null },
    atMs: at('09:13:15'),
  })

  await says(hour.mara, 'call', /Nest E needs fluids/)
  await turnTo(hour, kwame)
  await says(tablet, 'call', /Nest E needs fluids/)
  for (const person of [cleo, tomas]) {
    await turnTo(hour, person)
    await isThere(tablet, 'page-next')
  }
  // Who recorded it is told who is called, and is not called.
  await says(hour.ben, 'call-r2', /Kwame or Mara|Mara or Kwame/)
  for (const page of [hour.ana, hour.ben]) {
    expect(await page.getByTestId('page-call').count()).toBe(0)
  }
  await says(hour.wall, 'alert-now', 'E')
}

/** Both answer at the same moment; one is coming, and the other is told who. */
export async function takenByOne(hour: Hour): Promise<void> {
  const { house, tablet, links } = hour
  await turnTo(hour, kwame)
  await isThere(tablet, 'coming')
  links.tablet.hold()
  await tap(hour.mara, 'coming')
  await isThere(hour.mara, 'dealt-with')
  await tap(tablet, 'coming')
  links.tablet.mend()
  await says(tablet, 'notice', /Mara has it since 09:13/)
  await says(tablet, 'call-r2', 'Mara is coming to nest E.')
  await says(hour.ben, 'call-r2', 'Mara is coming to nest E.')
  await says(hour.wall, 'band', 'Mara')
  const taken = house.events('RequestTaken').filter(({ request }) => request === 'r2')
  expect(taken).toMatchObject([{ person: mara }])

  house.goTo('09:14')
  await tap(hour.mara, 'dealt-with')
  await hour.mara.getByTestId('own-words').fill('crop slow, warmed, looks brighter')
  await tap(hour.mara, 'save-words')
  await untilWritten(hour, 'RequestResolved', 2)
  const [resolved] = house.events('RequestResolved').slice(-1)
  expect(resolved).toMatchObject({ request: 'r2', by: mara })
  // The words themselves are kept apart from the journal.
  expect(resolved?.note?.id).toBeDefined()
  for (const page of [hour.ben, tablet]) await isGone(page, 'call-r2')
}

/** One of F's three is not back: everybody is to watch the doors, until it is found. */
export async function oneShort(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await turnTo(hour, cleo)
  await openNest(tablet, 'F')
  await tap(tablet, 'claim')
  await isThere(tablet, 'page-feeding')
  await says(tablet, `served-${cleo}`, 'has F')
  house.goTo('09:17')
  await tap(tablet, 'all-ate')
  await tap(tablet, 'fewer-back')
  await says(tablet, 'short', /One bird of F not seen: watch the doors/)
  expect(await tablet.getByTestId('save-next').count()).toBe(0)
  await tap(tablet, 'save')
  await untilWritten(hour, 'BirdsShort', 1)
  for (const page of hands(hour)) await says(page, 'short-F', /watch the doors/)
  await says(hour.wall, 'alert-now', 'F')
  await says(hour.desk, `short-${nests.F}`, /Watch the doors/)

  house.goTo('09:18')
  await tap(hour.ana, 'found-F')
  await untilWritten(hour, 'BirdsFound', 1)
  expect(house.events('BirdsFound')).toMatchObject([{ nest: nests.F, by: ana }])
  for (const page of hands(hour)) await isGone(page, 'short-F')
  await isGone(hour.wall, 'alert-now')
  await isGone(hour.desk, `short-${nests.F}`)
}

/** Two small ones nobody knows: they are warmed, and nobody is sent to feed them. */
export async function aBoxArrives(hour: Hour): Promise<void> {
  await goHome(hour.ana)
  await tap(hour.ana, 'more')
  for (const press of ['box', 'box-2', 'box-small', 'box-incubator-1', 'box-save']) {
    await tap(hour.ana, press)
  }
  await expect.poll(() => hour.house.events('NestOpened').at(-1)?.nest).toBe(box)
  expect(hour.house.events('NestOpened').at(-1)).toMatchObject({ label: 'G' })
}
