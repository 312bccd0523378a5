// The handheld's pages as they are walked to be measured: one line a page. A new page gets its line here.
// Every way begins on a page that was just opened; a way is what is pressed, each a test id, or a selector
// when it has a bracket in it, of which the first is pressed.

import type { Page } from 'playwright-core'
import { gloveLimits, pageFaults, sidewaysFaults } from '../support/measurePage.ts'
import { phone } from './house.ts'

export type Walk = {
  /** What it is called in the tests' report. */
  readonly name: string
  /** The page that is then shown, without its "page-". */
  readonly shows: string
  readonly way: readonly string[]
}

const walk = (name: string, shows: string, ...way: readonly string[]): Walk => ({
  name,
  shows,
  way,
})

const anyNest = '.nest[data-state]'
const nestThatIs = (state: string): string => `.nest[data-state="${state}"]`
const firstBird = '.press.bird[data-testid]'
const founderTile = '[data-testid="tile-p1"]'
const birdToHold = '[data-testid^="hold-b"]'
const fourFigures = ['key-1', 'key-2', 'key-3', 'key-4'] as const

/** With free hands, for somebody who leads nothing. */
export const freeWalks: readonly Walk[] = [
  walk('the next nest', 'next'),
  walk('the name tiles', 'people', 'who'),
  walk('the PIN pad', 'pin', 'who', founderTile),
  walk('the PIN pad with figures', 'pin', 'who', founderTile, ...fourFigures),
  walk('a wrong PIN', 'pin', 'who', founderTile, ...fourFigures, 'enter', '[data-testid="notice"]'),
  walk('the code pad', 'pin', 'who', founderTile, 'use-other'),
  walk('all nests', 'list', 'another'),
  walk('a nest', 'nest', 'another', anyNest),
  walk('a nest somebody has', 'nest', 'another', nestThatIs('claimed')),
  walk('a nest on hold', 'nest', 'another', nestThatIs('held')),
  walk('a nest that is warming', 'nest', 'another', nestThatIs('settling')),
  walk('a feed of before', 'said', 'another', anyNest, 'already-fed'),
  walk('a feed of before, its time', 'said', 'another', anyNest, 'already-fed', 'ago-5'),
  walk('which bird to hold', 'hold', 'another', anyNest, 'hold'),
  walk('why to hold it', 'hold', 'another', anyNest, 'hold', birdToHold),
  walk('more', 'more', 'more'),
  walk('a box that came', 'box', 'more', 'box'),
  walk('no records waiting', 'waiting', 'more', 'records'),
  walk('no calls', 'calls', 'more', 'calls'),
  walk('a break', 'break', 'more', 'break'),
  walk('the end of a shift', 'sign-out', 'more', 'end-shift'),
  walk('where the screen stands', 'place', 'more', 'place'),
]

/** With a nest in hand. */
export const feedingWalks: readonly Walk[] = [
  walk('a nest in hand', 'feeding'),
  walk('one bird', 'bird', firstBird),
  walk('one bird that took some', 'bird', firstBird, 'outcome-some'),
  walk('one bird, why not fed', 'bird', firstBird, 'outcome-notFed'),
  walk('one bird answered', 'feeding', firstBird, 'outcome-refused', 'keep'),
  walk('beside the feed', 'aside', 'aside'),
  walk('which bird in hand to hold', 'hold', 'aside', 'hold-bird'),
  walk('the count back', 'count', 'all-ate'),
  walk('the count back, one short', 'count', 'all-ate', 'fewer-back'),
]

/** Without a link: the claim is fed, its record waits. */
export const lostWalks: readonly Walk[] = [
  walk('the next nest, not live', 'next'),
  walk('all nests, not live', 'list', 'another'),
  walk('a nest, not live', 'nest', 'another', anyNest),
  walk('a record waiting', 'waiting', 'waiting'),
]

/** What only a lead has, and somebody signed off for fluids. */
export const leadWalks: readonly Walk[] = [
  walk('a nest, for a lead', 'nest', 'another', anyNest),
  walk('the lead’s part of a nest', 'lead', 'another', anyNest, 'lead'),
  walk('whom to ask', 'ask-person', 'another', anyNest, 'lead', 'ask-person'),
  walk('where to move a nest', 'move-nest', 'another', anyNest, 'lead', 'move-nest'),
  walk('why to end a hold', 'lift', 'another', nestThatIs('held'), 'lift'),
  walk('which bird to move', 'move-bird', 'another', anyNest, 'lead', 'move-bird'),
  walk('under which plan to release', 'release', 'another', nestThatIs('settling'), 'release'),
  walk('fluids for birds that are warming', 'fluids', 'another', nestThatIs('settling'), 'fluids'),
  walk('more, for a lead', 'more', 'more'),
  walk('what the lead is told', 'notices', 'more', 'notices'),
  walk('the mentors', 'mentors', 'more', 'mentors'),
  walk('one trainee’s mentor', 'mentor', 'more', 'mentors', '[data-testid^="trainee-"]'),
]

/** For the one who was called, in this order: each begins where the last one left the room. */
export const calledWalks: readonly Walk[] = [
  walk('a call for help', 'call'),
  walk('a call one has taken', 'call', 'coming'),
  walk('what came of it', 'call-over', 'dealt-with'),
]

export async function walked(page: Page, { way, shows }: Walk): Promise<void> {
  for (const step of way) {
    await (step.includes('[') ? page.locator(step).first() : page.getByTestId(step)).click()
  }
  await page.getByTestId(`page-${shows}`).waitFor()
}

const sizes = [phone.viewport, { width: 360, height: 740 }] as const
const widthsPx = [360, 390, 768, 1024] as const

/** What is wrong with the page that is shown, at both sizes of phone; its width on tablets too. */
export async function handFaults(page: Page): Promise<readonly string[]> {
  const found: string[] = [...(await sidewaysFaults(page, widthsPx))]
  for (const size of sizes) {
    await page.setViewportSize(size)
    const faults = await pageFaults(page, gloveLimits)
    found.push(...faults.map((fault) => `${size.width} px: ${fault}`))
  }
  await page.setViewportSize(phone.viewport)
  return found
}

/** The page opened anew, a way walked on it, and what is wrong with what is then shown. */
export async function faultsAfter(page: Page, walk: Walk): Promise<readonly string[]> {
  // What the walk before tapped and did not save would be there again.
  await page.evaluate(() => sessionStorage.clear())
  await page.reload()
  await page.locator('[data-testid^="page-"]').waitFor()
  await walked(page, walk)
  return handFaults(page)
}

/** A press that is not there by then is not there. */
export const stepMaxMs = 10_000
