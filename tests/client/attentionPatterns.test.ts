// The notes themselves: how many, how high, in which rhythm. That nothing above 4 kHz comes out of them
// is measured on the rendered sound (tests/journeys/measuredSound.test.ts).

import { describe, expect, it } from 'vitest'
import { fadeMs, repeatMs, sounds, vibrations } from '../../client/attention/patterns.ts'

const all = Object.entries(sounds)
const heightsOf = (name: keyof typeof sounds) => sounds[name].pulses.map(({ fromHz }) => fromHz)

/** From the end of each pulse to the start of the next. */
const pausesMs = (name: keyof typeof sounds) =>
  sounds[name].pulses.slice(1).map(({ startMs }, at) => startMs - endMs(sounds[name].pulses[at]))
const endMs = (pulse = { startMs: 0, lengthMs: 0 }) => pulse.startMs + pulse.lengthMs

describe('every sound', () => {
  it.each(all)('%s keeps its fundamentals between 260 and 660 Hz', (_, { pulses }) => {
    for (const { fromHz, toHz } of pulses) {
      expect(Math.min(fromHz, toHz)).toBeGreaterThanOrEqual(260)
      expect(Math.max(fromHz, toHz)).toBeLessThanOrEqual(660)
    }
  })

  it.each(all)('%s has harmonics, the highest of them below 4 kHz', (_, { pulses, harmonics }) => {
    expect(harmonics.length).toBeGreaterThan(1)
    const highestHz = Math.max(...pulses.map(({ fromHz, toHz }) => Math.max(fromHz, toHz)))
    expect(highestHz * harmonics.length).toBeLessThan(4_000)
  })

  it.each(all)('%s plays one pulse at a time, each long enough to fade in and out', (_, sound) => {
    for (const [at, pulse] of sound.pulses.entries()) {
      expect(pulse.lengthMs).toBeGreaterThan(2 * fadeMs)
      expect(pulse.startMs).toBeGreaterThanOrEqual(endMs(sound.pulses[at - 1]))
    }
  })
})

describe('the rhythms', () => {
  it('"now" is ten pulses, three and two, twice, rising in each five', () => {
    expect(sounds.now.pulses).toHaveLength(10)
    const pauses = pausesMs('now')
    const [inGroup, breath, between] = [pauses[0] ?? 0, pauses[2] ?? 0, pauses[4] ?? 0]
    const five = [inGroup, inGroup, breath, inGroup]
    expect(pauses).toEqual([...five, between, ...five])
    expect(breath).toBeGreaterThanOrEqual(2 * inGroup)
    expect(between).toBeGreaterThanOrEqual(2 * breath)
    const rising = heightsOf('now').slice(0, 5)
    expect(rising).toEqual(rising.toSorted((one, other) => one - other))
    expect(new Set(rising).size).toBe(5)
    expect(heightsOf('now').slice(5)).toEqual(rising)
  })

  it('"soon" is three, "watch" one, "saved" one short and low', () => {
    expect([sounds.soon, sounds.watch, sounds.saved].map(({ pulses }) => pulses.length)).toEqual([
      3, 1, 1,
    ])
    const heights = Object.values(sounds).flatMap(({ pulses }) => pulses.map(({ toHz }) => toHz))
    expect(heightsOf('saved')).toEqual([Math.min(...heights)])
    expect(sounds.saved.pulses[0]?.lengthMs).toBeLessThanOrEqual(100)
  })

  it('"not live" is two tones that fall, the second from where the first ended', () => {
    const [first, second] = sounds.notLive.pulses
    expect(sounds.notLive.pulses).toHaveLength(2)
    expect(first?.toHz).toBeLessThan(first?.fromHz ?? 0)
    expect(second?.toHz).toBeLessThan(second?.fromHz ?? 0)
    expect(second?.fromHz).toBe(first?.toHz)
  })

  it('the more urgent is the louder', () => {
    const { now, soon, watch } = sounds
    expect(now.loudness).toBeGreaterThan(soon.loudness)
    expect(soon.loudness).toBeGreaterThan(watch.loudness)
  })

  it('"now" comes again every ten seconds, "not live" every twenty, the others never', () => {
    expect(repeatMs).toEqual({ now: 10_000, notLive: 20_000 })
  })
})

describe('the vibrations', () => {
  it('begin and end with a beat, "saved" the shortest of them', () => {
    const lengthsMs = Object.values(vibrations).map((beats) => {
      expect(beats.length % 2).toBe(1)
      return beats.reduce((sum, beat) => sum + beat, 0)
    })
    expect(vibrations.saved).toEqual([Math.min(...lengthsMs)])
  })
})
