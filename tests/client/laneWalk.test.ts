// Random walks of a device and a small server over a bad network: frames lost, doubled and late, links
// cut, pages reloaded, the server busy, restarted and restored from a backup. Whatever the walk, when
// the network heals every report stands in the log once, and nobody was told an untruth about an ask.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { AskOutcome } from '../../client/session/outcomes.ts'
import type { BirdId } from '../../shared/base/values.ts'
import type { CommandFrame, FromServer } from '../../shared/wire/frames.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers, settled } from '../support/fakeTimers.ts'
import { ana, Device } from './device.ts'
import { SmallServer, tagOf } from './smallServer.ts'

const steps = [
  'report',
  'report',
  'ask',
  'connect',
  'connect',
  'connect',
  'up',
  'up',
  'up',
  'down',
  'down',
  'down',
  'loseUp',
  'loseDown',
  'doubleUp',
  'doubleDown',
  'cut',
  'reload',
  'moment',
  'moment',
  'while',
  'grants',
  'refuses',
  'busy',
  'restart',
] as const
type Step = (typeof steps)[number] | 'restore'

/** One thing of the walk that somebody noted, and what they were told became of it. */
type NotedAsk = { readonly tag: string; outcome: AskOutcome | null }

class Walk {
  readonly server = new SmallServer()
  readonly store = new FakeOutboxStore()
  readonly timers = new FakeTimers()
  readonly reports: string[] = []
  readonly asks: NotedAsk[] = []
  device = new Device({ store: this.store, timers: this.timers })
  #up: CommandFrame[] = []
  #down: FromServer[] = []
  #sent = 0
  #noted = 0

  async take(step: Step): Promise<void> {
    if (step === 'report') await this.#report()
    else if (step === 'ask') this.#ask()
    else if (step === 'connect') this.#connect()
    else if (step === 'reload') await this.reload()
    else if (step === 'moment') await this.timers.pass(700)
    else if (step === 'while') await this.timers.pass(6_000)
    else if (step === 'cut') this.#cut()
    else if (step === 'grants' || step === 'refuses') this.server.grants = step === 'grants'
    else if (step === 'busy') this.server.isBusy = !this.server.isBusy
    else if (step === 'restart' || step === 'restore') this.#restart(step)
    else this.#network(step)
    await settled()
    this.#collect()
  }

  async reload(): Promise<void> {
    this.device.session.stop()
    this.#cut()
    await settled()
    this.device = new Device({ store: this.store, timers: this.timers })
    await this.device.session.start()
  }

  /** The network is good from here on, and time goes by. */
  async heal(): Promise<void> {
    this.server.isBusy = false
    for (let round = 0; round < 400; round += 1) {
      this.#connect()
      this.#collect()
      for (const step of ['up', 'down'] as const) {
        while ((step === 'up' ? this.#up : this.#down).length > 0) {
          this.#network(step)
          await settled()
          this.#collect()
        }
      }
      if (round % 4 === 3) await this.#beat()
    }
  }

  async #report(): Promise<void> {
    this.#noted += 1
    const body = { type: 'Weighed', v: 1, bird: 'b1' as BirdId, massMg: 100 + this.#noted } as const
    const { status } = await this.device.session.report(ana, body)
    if (status === 'kept') this.reports.push(tagOf(body))
  }

  #ask(): void {
    this.#noted += 1
    const body = { type: 'AddIncubator', v: 1, label: `${this.#noted}` } as const
    const noted: NotedAsk = { tag: tagOf(body), outcome: null }
    this.asks.push(noted)
    void this.device.session.ask(ana, body).then((outcome) => {
      noted.outcome = outcome
    })
  }

  #connect(): void {
    if (!this.device.link.isTrying) return
    this.device.link.open()
    const hello = this.device.link.lastHello()
    this.device.link.say(this.server.welcome(hello))
  }

  #cut(): void {
    this.#up = []
    this.#down = []
    if (this.device.link.isOpen) this.device.link.cut()
  }

  #restart(step: 'restart' | 'restore'): void {
    this.#cut()
    if (step === 'restart') this.server.restart()
    else this.server.restore(3)
  }

  #network(step: Step): void {
    if (step === 'up' || step === 'doubleUp') {
      const [frame] = step === 'up' ? this.#up.splice(0, 1) : this.#up
      if (frame !== undefined) this.#down.push(...this.server.take(frame))
    } else if (step === 'down' || step === 'doubleDown') {
      const [frame] = step === 'down' ? this.#down.splice(0, 1) : this.#down
      if (frame !== undefined) this.device.link.say(frame)
    } else if (step === 'loseUp') this.#up.shift()
    else this.#down.shift()
  }

  async #beat(): Promise<void> {
    await this.timers.pass(1_000)
    if (this.device.link.isOpen) this.device.link.say(this.server.beat())
    await settled()
  }

  /** What the device has sent goes on its way, unless the link has gone under it. */
  #collect(): void {
    const { link } = this.device
    if (this.#sent > link.commands().length) this.#sent = 0
    const fresh = link.commands().slice(this.#sent)
    this.#sent = link.commands().length
    if (link.isOpen) this.#up.push(...fresh)
    else this.#cut()
  }
}

async function walked(path: readonly Step[]): Promise<Walk> {
  const walk = new Walk()
  await walk.device.session.start()
  for (const step of path) await walk.take(step)
  await walk.heal()
  return walk
}

function expectHealed(walk: Walk): void {
  const { shown } = walk.device
  expect(shown).toMatchObject({ pending: [], stuck: [], liveness: { status: 'live' } })
  expect(shown.board).toEqual(walk.server.board())
  const logged = walk.server.log.map(({ tag }) => tag)
  const reportsLogged = logged.filter((tag) => walk.reports.includes(tag))
  expect([...reportsLogged].sort()).toEqual([...walk.reports].sort())
  const numbers = walk.server.log.map(({ n }) => n)
  expect(numbers).toEqual([...numbers].sort((a, b) => a - b))
}

/** `lost` counts as granted only where records can be lost: then its ask may be gone from the log. */
function expectToldTruly({ asks, server }: Walk): void {
  for (const { tag, outcome } of asks) {
    const times = server.log.filter((logged) => logged.tag === tag).length
    expect(times).toBeLessThanOrEqual(1)
    if (outcome?.status === 'applied') expect(times).toBe(1)
    if (outcome?.status === 'notLive' || outcome?.status === 'rejected') expect(times).toBe(0)
    expect(outcome).not.toBeNull()
  }
}

const paths = (step: fc.Arbitrary<Step>) => fc.array(step, { maxLength: 70, size: 'max' })

describe('a lane over a bad network', () => {
  it('brings every report to the log once, and tells the truth about every ask', async () => {
    await fc.assert(
      fc.asyncProperty(paths(fc.constantFrom(...steps)), async (path) => {
        const walk = await walked(path)
        expectHealed(walk)
        expectToldTruly(walk)
        expect(walk.device.complaints.filter(isOurMistake)).toEqual([])
      }),
      { seed: 20260516, numRuns: 150 },
    )
  })

  it('gives a restored server back every report of the last minutes, once', async () => {
    await fc.assert(
      fc.asyncProperty(paths(fc.constantFrom(...steps, 'restore', 'restore')), async (path) => {
        expectHealed(await walked(path))
      }),
      { seed: 20260517, numRuns: 150 },
    )
  })
})

/** A lost record is the network's doing; anything else that was caught is ours. */
const isOurMistake = (complaint: unknown): boolean =>
  !(Array.isArray(complaint) && complaint[0] === 'the board is asked for anew')
