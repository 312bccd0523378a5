// What may sound and vibrate, cell by cell: nothing reaches somebody whose hands are in a nest save a
// "now" for that nest, nothing sounds among the birds, and the dark hours hear only what must be heard.

import { describe, expect, it } from 'vitest'
import { places } from '../../client/attention/place.ts'
import { type Change, effectOf } from '../../client/attention/rule.ts'

const alert = (level: 'now' | 'soon' | 'watch', isForMyNest = false): Change => ({
  type: 'alert',
  level,
  isForMyNest,
})

const changes: readonly (readonly [string, Change])[] = [
  ['now', alert('now')],
  ['now for my nest', alert('now', true)],
  ['soon', alert('soon')],
  ['soon for my nest', alert('soon', true)],
  ['watch', alert('watch')],
  ['watch for my nest', alert('watch', true)],
  ['asked', { type: 'asked' }],
  ['saved', { type: 'saved' }],
  ['pending', { type: 'pending' }],
  ['not live', { type: 'notLive' }],
]

const said = (change: Change, around: Omit<Parameters<typeof effectOf>[1], 'place'>) =>
  places.map((place) => {
    const { sound, vibration } = effectOf(change, { ...around, place })
    return `${sound ?? '-'} / ${vibration ?? '-'}`
  })

/** Sound / vibration, in the nursery, in the corridor, in the lead's pocket. */
const freeByDay: Readonly<Record<string, readonly string[]>> = {
  now: ['- / now', 'now / now', 'now / now'],
  'now for my nest': ['- / now', 'now / now', 'now / now'],
  soon: ['- / soon', 'soon / soon', 'soon / soon'],
  'soon for my nest': ['- / soon', 'soon / soon', 'soon / soon'],
  watch: ['- / -', 'watch / -', 'watch / -'],
  'watch for my nest': ['- / -', 'watch / -', 'watch / -'],
  asked: ['- / now', 'now / now', 'now / now'],
  saved: ['- / saved', 'saved / saved', 'saved / saved'],
  pending: ['- / -', '- / -', '- / -'],
  'not live': ['- / notLive', 'notLive / notLive', 'notLive / notLive'],
}

const freeInTheDark: typeof freeByDay = {
  ...freeByDay,
  soon: ['- / soon', '- / soon', '- / soon'],
  'soon for my nest': ['- / soon', '- / soon', '- / soon'],
  watch: ['- / -', '- / -', '- / -'],
  'watch for my nest': ['- / -', '- / -', '- / -'],
  saved: ['- / saved', '- / saved', '- / saved'],
}

const silence = ['- / -', '- / -', '- / -']

describe('with free hands', () => {
  it.each(changes)('by day: %s', (name, change) => {
    expect(said(change, { holdsClaim: false, isDark: false })).toEqual(freeByDay[name])
  })

  it.each(changes)('in the dark hours: %s', (name, change) => {
    expect(said(change, { holdsClaim: false, isDark: true })).toEqual(freeInTheDark[name])
  })
})

describe('while a claim is held', () => {
  it.each(changes)('%s', (name, change) => {
    const expected = name === 'now for my nest' ? freeByDay[name] : silence
    expect(said(change, { holdsClaim: true, isDark: false })).toEqual(expected)
    expect(said(change, { holdsClaim: true, isDark: true })).toEqual(expected)
  })
})
