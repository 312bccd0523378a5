import { describe, expect, it } from 'vitest'
import { bandLine, bandPage } from '../../client/wall/band.ts'
import { page } from '../../client/wall/frame.ts'
import type { NestId } from '../../shared/base/values.ts'
import type { WallAlert } from '../../shared/views/wallAlerts.ts'

/** As wide as the page's own font is on average, in words like these. */
const widthOf = (text: string, { px }: { readonly px: number }): number => text.length * px * 0.48

const alert = (label: string, more: Partial<WallAlert> = {}): WallAlert => ({
  key: `${more.kind ?? 'help'} ${label}`,
  level: 'now',
  kind: 'help',
  nest: `n-${label}` as NestId,
  label,
  incubatorLabel: '3',
  sinceMs: 0,
  waits: 'Bartholomea',
  taken: null,
  birds: 0,
  ...more,
})
const soon = (label: string) => alert(label, { level: 'soon', kind: 'lookAgain', waits: null })

/** All pages in the order in which they turn. */
function pagesOf(alerts: readonly WallAlert[]) {
  const lines = alerts.map(bandLine)
  const [, count = '1'] = bandPage(lines, 0, widthOf)?.pageOf?.split(' of ') ?? []
  return Array.from({ length: Number(count) }, (_, turn) => bandPage(lines, turn, widthOf))
}
const headlines = (alerts: readonly WallAlert[]) =>
  pagesOf(alerts).map((one) => one?.panels.map(({ headline }) => headline))

describe('the band', () => {
  it('is none while nothing is open', () => {
    expect(bandPage([], 0, widthOf)).toBeNull()
  })

  it('says one thing in full and without a number of pages', () => {
    const [only] = pagesOf([alert('T', { waits: 'Ivo' })])
    expect(only).toMatchObject({
      pageOf: null,
      panels: [{ headline: 'Now: help at nest T', line: 'Incubator 3, Ivo is waiting' }],
    })
  })

  it('says two at a time, what is taken with the hands that have it', () => {
    const taken = alert('AK', { kind: 'fluids', taken: { name: 'Priya' } })
    const [both] = pagesOf([alert('T', { waits: 'Ivo' }), taken])
    expect(both?.panels).toMatchObject([
      { shape: 'triangle', isTaken: false },
      { shape: 'drop', isTaken: true, line: 'Priya has it' },
    ])
  })

  it('turns its page, every eight seconds, and says which page it is', () => {
    const alerts = [soon('A'), soon('B'), soon('C')]
    expect(pagesOf(alerts).map((one) => one?.pageOf)).toEqual(['1 of 2', '2 of 2'])
    expect(bandPage(alerts.map(bandLine), 2, widthOf)?.pageOf).toBe('1 of 2')
  })

  it('keeps what says "Now" on every page', () => {
    const pages = headlines([alert('T'), soon('A'), soon('B'), soon('C')])
    expect(pages).toHaveLength(3)
    for (const shown of pages) expect(shown?.[0]).toMatch(/^Now: help at/)
  })

  it('shows some "Now" on every page where there are several, and everything on some page', () => {
    const labels = ['T', 'U', 'V', 'A', 'B']
    const pages = headlines([alert('T'), alert('U'), alert('V'), soon('A'), soon('B')])
    for (const shown of pages) expect(shown?.some((words) => words.startsWith('Now'))).toBe(true)
    for (const label of labels) {
      expect(pages.flat().some((words) => words?.endsWith(` ${label}`))).toBe(true)
    }
  })

  it('never needs more room than there is, whatever people and nests are called', () => {
    const long = [
      alert('ABCDEF', { kind: 'short', birds: 12 }),
      alert('GHJKLM'),
      alert('NPQRST', { kind: 'fluids', taken: { name: 'Bartholomea' } }),
      soon('UVWXYZ'),
    ]
    for (const one of pagesOf(long)) {
      const width = one?.panels.reduce((sum, panel) => sum + panel.width, 0) ?? 0
      expect(width).toBeGreaterThan(0)
      expect(width).toBeLessThanOrEqual(page.width)
    }
  })
})
