// The sounds as a browser renders them, into memory: nothing to speak of above 4 kHz, where small birds
// call and hear best; as many pulses as the tables say, with silence between them; no clipping.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Sound, sounds } from '../../client/attention/patterns.ts'
import { launchBrowser } from '../support/browser.ts'
import { bundled } from '../support/measureBundle.ts'

declare const schedule: typeof import('../../client/attention/soundSchedule.ts')

const rateHz = 44_100
/** The middle of the filter's slope, which begins near 3.9 kHz. */
const cornerHz = 4_300
/** What is let through of a pulse's own fading; 60 dB below it nobody hears it. */
const strayDbMax = -60
const tailSeconds = 0.2

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  page = await browser.newPage()
  await page.evaluate(await bundled('client/attention/soundSchedule.ts', 'schedule'))
})
afterAll(() => browser.close())

const lengthOf = ({ pulses }: Sound): number =>
  Math.max(...pulses.map(({ startMs, lengthMs }) => startMs + lengthMs)) / 1_000 + tailSeconds

/** The samples of the whole sound, -1 to 1. */
async function rendered(sound: Sound): Promise<Float64Array> {
  const samples = await page.evaluate(
    async ({ sound, seconds, rateHz }) => {
      const context = new OfflineAudioContext(1, Math.ceil(seconds * rateHz), rateHz)
      schedule.scheduleSound(context, sound)
      return [...(await context.startRendering()).getChannelData(0)]
    },
    { sound, seconds: lengthOf(sound), rateHz },
  )
  return Float64Array.from(samples)
}

const energyOf = (samples: Float64Array): number =>
  samples.reduce((sum, sample) => sum + sample * sample, 0)

/** What is left above this height: a windowed-sinc high-pass, Blackman window, its slope 800 Hz wide. */
function above(samples: Float64Array): Float64Array {
  const half = 150
  const corner = cornerHz / rateHz
  const taps = Array.from({ length: 2 * half + 1 }, (_, at) => {
    const n = at - half
    const turn = (Math.PI * at) / half
    const window = 0.42 - 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn)
    const low = n === 0 ? 2 * corner : Math.sin(2 * Math.PI * corner * n) / (Math.PI * n)
    return ((n === 0 ? 1 : 0) - low) * window
  })
  return samples.map((_, at) => {
    let sum = 0
    for (let n = 0; n < taps.length; n += 1) sum += (taps[n] ?? 0) * (samples[at + n - half] ?? 0)
    return sum
  })
}

const strayDbOf = (samples: Float64Array): number =>
  10 * Math.log10(energyOf(above(samples)) / energyOf(samples))

/** Runs of loud moments: each stretch of 10 ms is loud when anything in it is. */
function burstsOf(samples: Float64Array): number {
  const stretch = rateHz / 100
  const loud = Array.from({ length: Math.ceil(samples.length / stretch) }, (_, at) =>
    samples.subarray(at * stretch, (at + 1) * stretch).some((sample) => Math.abs(sample) > 0.01),
  )
  return loud.filter((isLoud, at) => isLoud && !loud[at - 1]).length
}

describe('a rendered sound', () => {
  it.each(Object.entries(sounds))('%s', async (_, sound) => {
    const samples = await rendered(sound)
    expect(samples.every((sample) => Math.abs(sample) <= 1)).toBe(true)
    expect(burstsOf(samples)).toBe(sound.pulses.length)
    expect(strayDbOf(samples)).toBeLessThan(strayDbMax)
  })

  it('that climbs to where birds call is found out', async () => {
    const pulse = { startMs: 0, lengthMs: 200, fromHz: 440, toHz: 1_100 }
    const samples = await rendered({ ...sounds.watch, pulses: [pulse] })
    expect(strayDbOf(samples)).toBeGreaterThan(strayDbMax)
  })
})
