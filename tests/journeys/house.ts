// The built server in a folder of its own, and its screens in real Chromium pages. The demo room is
// the stage; what a journey counts, it reads back from the journal's files.

import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { nestlingRoom } from '../../demo-data/nestlingRoom.ts'
import { prepareBuild } from '../../server/bin/launch.mjs'
import type { EventOf, EventType } from '../../shared/board/events.ts'
import { readEvents } from '../../shared/board/events.ts'
import { originOf, ServerProcess } from '../faults/serverProcess.ts'

const projectRoot = new URL('../..', import.meta.url).pathname

export class House {
  readonly #build: string
  readonly #folder: string
  readonly #speed: number
  #server: ServerProcess | null = null
  #port = 0

  constructor(build: string, speed: number) {
    this.#build = build
    this.#folder = mkdtempSync(join(tmpdir(), 'journey-'))
    this.#speed = speed
  }

  get origin(): string {
    return originOf(this.#port)
  }

  /** Starts the server, from the second time on the port its screens know. */
  async open(): Promise<void> {
    this.#server = new ServerProcess({
      build: this.#build,
      roomsDir: join(this.#folder, 'rooms'),
      port: this.#port,
      speed: this.#speed,
      logFile: join(this.#folder, 'server.log'),
    })
    this.#port = await this.#server.serves()
  }

  /** Kills it without a word. */
  async strike(): Promise<void> {
    this.#server?.strike()
    await this.#server?.ended()
  }

  async close(): Promise<void> {
    await this.#server?.end()
    rmSync(this.#folder, { recursive: true })
  }

  /** Every event of one type in the journal, in order. */
  events<Type extends EventType>(type: Type): readonly EventOf<Type>[] {
    const season = this.#seasonFolder()
    return readdirSync(season)
      .filter((name) => name.endsWith('.journal'))
      .sort()
      .flatMap((name) => readFileSync(join(season, name), 'utf8').trimEnd().split('\n'))
      .flatMap((line) => readEvents(JSON.parse(line).events))
      .filter((event): event is EventOf<Type> => event.type === type)
  }

  #seasonFolder(): string {
    const room = join(this.#folder, 'rooms', nestlingRoom.id)
    const [season] = readdirSync(room)
    if (season === undefined) throw new Error('the demo room has no season')
    return join(room, season)
  }
}

export async function openedHouse(speed = 1): Promise<House> {
  const house = new House(await prepareBuild(projectRoot), speed)
  await house.open()
  return house
}

/** A page that fails the test which uses it when a script of its own breaks. */
async function watched(context: BrowserContext, url: string): Promise<Page> {
  const page = await context.newPage()
  page.on('pageerror', (error) => {
    throw error
  })
  await page.goto(url)
  return page
}

export async function wallOf(browser: Browser, house: House): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } })
  const page = await watched(context, `${house.origin}/${nestlingRoom.id}/wall`)
  await page.getByTestId('lane-1').waitFor()
  return page
}

export const phone = { viewport: { width: 390, height: 844 } } as const
export type DemoPerson = { readonly id: string; readonly name: string; readonly pin: string }
export const marit: DemoPerson = { id: 'p3', name: 'Marit', pin: '3579' }
export const jonas: DemoPerson = { id: 'p4', name: 'Jonas', pin: '4680' }

/** A handheld on which this person has signed in and is shown their next nest. */
export async function handOf(
  context: BrowserContext,
  house: House,
  person: DemoPerson,
): Promise<Page> {
  const page = await watched(context, `${house.origin}/${nestlingRoom.id}/hand`)
  await page.getByTestId(`tile-${person.id}`).click()
  for (const figure of person.pin) await page.getByTestId(`key-${figure}`).click()
  await page.getByTestId('enter').click()
  await page.getByTestId('page-next').waitFor()
  return page
}

/** The label of the nest a handheld offers now, as its first word. */
export async function offered(page: Page): Promise<string> {
  const words = await page.getByTestId('next-label').textContent()
  const [label] = (words ?? '').trim().split(/\s/)
  if (label === undefined) throw new Error('the handheld offers no nest')
  return label
}

/** "All of them ate", counted back, saved. */
export async function feedAll(page: Page): Promise<void> {
  await page.getByTestId('all-ate').click()
  await page.getByTestId('page-count').waitFor()
  await page.getByTestId('save').click()
}
