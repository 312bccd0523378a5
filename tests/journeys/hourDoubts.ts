// 09:18 to 09:36 of the scripted hour: three visits nobody recorded, one looked into by somebody else and
// two answered by their owners, and the look for a bird that went hungry.

import { expect } from 'vitest'
import { at } from './crankedHouse.ts'
import { goHome, openNest, recordAllAte, tap, text } from './crankedPages.ts'
import { type Hour, isGone, isThere, says, turnTo, untilWritten } from './hourScreens.ts'
import { ben, birds, cleo, kwame, mara, nests, tomas } from './hourStage.ts'

const doubtsOf = ({ house }: Hour, nest: string) =>
  house.events('DoubtRaised').filter((doubt) => doubt.nest === nest && doubt.kind === 'silent')

const endOf = ({ house }: Hour, no: number | undefined) =>
  house.events('DoubtEnded').find((end) => end.no === no)

const lastRound = ({ house }: Hour) => house.events('RoundRecorded').at(-1)

/** Three of them take a nest in hand, each in their own minute, and say no more. */
export async function threeGoSilent(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  await openNest(hour.ben, 'E')
  await tap(hour.ben, 'claim')
  await isThere(hour.ben, 'page-feeding')
  house.goTo('09:21')
  await openNest(hour.mara, 'A')
  await tap(hour.mara, 'claim')
  await isThere(hour.mara, 'page-feeding')
  await lookForTheHungry(hour)
  house.goTo('09:25')
  await turnTo(hour, cleo)
  await openNest(tablet, 'B')
  await says(tablet, 'twice', /Recorded twice/)
  await tap(tablet, 'look-first')
  await isThere(tablet, 'page-feeding')
  expect(await text(tablet, 'page-feeding')).not.toMatch(/\d mL/)
  await tap(tablet, 'all-empty')
  // A look at its birds is what ends "recorded twice".
  await isThere(tablet, 'all-ate')
  await expect
    .poll(() => house.events('DoubtEnded'))
    .toMatchObject([{ nest: nests.B, how: 'looked' }])
  await isGone(hour.wall, 'alert-soon')
}

/** D at 09:22, half an interval after one of its five refused: crops first, then the one that is empty. */
async function lookForTheHungry(hour: Hour): Promise<void> {
  const { house, ana: page } = hour
  const [hungry, ...others] = birds.D
  house.goTo('09:22')
  await goHome(page)
  await says(page, 'next-label', 'D')
  await says(page, 'hungry', /1 of 5 refused, not known which\. Look: find it\./)
  await tap(page, 'claim')
  await isThere(page, 'page-feeding')
  expect(await text(page, 'page-feeding')).not.toMatch(/\d mL/)
  await tap(page, `bird-${hungry}`)
  await tap(page, 'crop-empty')
  await tap(page, 'all-full')
  await isThere(page, 'all-ate')
  house.goTo('09:24')
  await recordAllAte(page)
  await expect.poll(() => lastRound(hour)?.nest).toBe(nests.D)
  expect(lastRound(hour)?.answers.map(({ bird }) => bird)).toEqual([hungry])
  const looks = house.events('BirdsLooked').flatMap((event) => event.looks)
  expect(looks.map(({ crop }) => crop)).toEqual(['empty', ...others.map(() => 'full')])
}

/** E lapses at 09:27. For a minute only Ben is asked; then whoever comes is warned, and looks. */
export async function lookedByTheNext(hour: Hour): Promise<void> {
  const { house } = hour
  house.goTo('09:27')
  await says(hour.ben, 'question-E', '09:18')
  await isThere(hour.ben, 'said-some-E')
  await hour.wall.locator('[data-testid="nest-E"][data-doubt="yes"]').waitFor()
  expect(doubtsOf(hour, nests.E)).toMatchObject([{ owner: ben, aboutAtMs: at('09:18') }])
  await says(hour.ana, 'next-label', 'C')
  for (const page of [hour.ana, hour.mara, hour.tablet]) {
    expect(await page.getByTestId('question-E').count()).toBe(0)
  }

  house.goTo('09:28')
  await says(hour.ana, 'next-label', 'E')
  await says(hour.ana, 'perhaps-fed', 'Perhaps fed 09:18 by Ben: look before you feed.')
  await tap(hour.ana, 'look-first')
  await isThere(hour.ana, 'page-feeding')
  expect(await text(hour.ana, 'page-feeding')).not.toMatch(/\d mL/)
  await tap(hour.ana, 'all-empty')
  await isThere(hour.ana, 'all-ate')
  await isGone(hour.ana, 'perhaps-fed')
  // Its owner is still asked: a crop does not say whose feed it was.
  await tap(hour.ben, 'said-none-E')
  await isGone(hour.ben, 'question-E')
  const [doubt] = doubtsOf(hour, nests.E)
  await expect.poll(() => endOf(hour, doubt?.no)).toMatchObject({ how: 'said', said: 'none' })
}

/** A lapses at 09:30 while Ana is at E: her page stays. Mara fed one of A's two, and says so. */
export async function answeredSome(hour: Hour): Promise<void> {
  const { house } = hour
  house.goTo('09:30')
  await says(hour.mara, 'question-A', '09:21')
  expect(await hour.ana.getByTestId('page-feeding').count()).toBe(1)
  await tap(hour.mara, 'said-some-A')
  await tap(hour.mara, `fed-${birds.A.red}`)
  await tap(hour.mara, 'save-which')
  await isGone(hour.mara, 'question-A')
  const [doubt] = doubtsOf(hour, nests.A)
  await expect.poll(() => endOf(hour, doubt?.no)).toMatchObject({ how: 'said', said: 'some' })
  expect(lastRound(hour)).toMatchObject({
    ...{ nest: nests.A, person: mara, startedAtMs: at('09:21') },
    answers: [{ bird: birds.A.red, outcome: 'ate' }],
  })
  // The other one still waits.
  await openNest(hour.mara, 'A')
  await tap(hour.mara, 'claim')
  await isThere(hour.mara, 'page-feeding')
  expect(house.events('NestClaimed').at(-1)?.birds).toEqual([birds.A.blue])
  house.goTo('09:32')
  const before = house.events('RoundRecorded').length
  await recordAllAte(hour.mara)
  await recordAllAte(hour.ana)
  await untilWritten(hour, 'RoundRecorded', before + 2)
}

/** B lapses at 09:34. The question waits for Cleo on a tablet that serves others, and she fed none. */
export async function answeredNone(hour: Hour): Promise<void> {
  const { house, tablet } = hour
  for (const person of [tomas, kwame]) {
    await turnTo(hour, person)
    house.goTo('09:34')
    await isThere(tablet, 'page-next')
    expect(await tablet.getByTestId('question-B').count()).toBe(0)
  }
  await turnTo(hour, cleo)
  await says(tablet, 'question-B', '09:25')
  const before = house.events('RoundRecorded').length
  await tap(tablet, 'said-none-B')
  await isGone(tablet, 'question-B')
  const [doubt] = doubtsOf(hour, nests.B)
  await expect.poll(() => endOf(hour, doubt?.no)).toMatchObject({ how: 'said', said: 'none' })
  expect(house.events('RoundRecorded')).toHaveLength(before)
  await openNest(tablet, 'B')
  await tap(tablet, 'claim')
  await isThere(tablet, 'page-feeding')
  house.goTo('09:36')
  await recordAllAte(tablet)
  await untilWritten(hour, 'RoundRecorded', before + 1)
  expect(lastRound(hour)).toMatchObject({ nest: nests.B, person: cleo, startedAtMs: at('09:34') })
}
