// The top band: what must be acted on, two at a time, what says "Now" first and on every page. Which
// words an alert is said in depends on the room its neighbour leaves; nothing is ever cut.

import type { AlertLevel, WallAlert } from '../../shared/views/wallAlerts.ts'
import { page, textPx } from './frame.ts'
import { type WidthOf, weight } from './measure.ts'
import { alertForms, topWords } from './words.ts'

/** What the band shows of one alert. */
export type Panel = {
  readonly key: string
  readonly level: AlertLevel
  readonly shape: 'triangle' | 'drop' | 'disc' | 'bar'
  readonly headline: string
  readonly line: string
  /** Somebody has it: outlined, steady, and the line is their name. */
  readonly isTaken: boolean
  readonly width: number
}
export type BandPage = { readonly panels: readonly Panel[]; readonly pageOf: string | null }

/** A headline and the line under it. */
export type BandForm = readonly [string, string]

/** Anything the band can say, from the most words to the fewest. */
export type BandLine = {
  readonly key: string
  readonly level: AlertLevel
  readonly isFluids: boolean
  readonly forms: readonly BandForm[]
  readonly isTaken: boolean
}

/** Type of the line that says "Now". */
const urgentPx = 106
/** White space and shape of a panel, by what it is. */
const chrome = { now: 40 + 156 + 30 + 30, taken: 36 + 66 + 36, other: 34 + 84 + 26 + 34 } as const
const barPadding = 60
export const pageMs = 8_000
const pageOfGap = 48

export function bandLine(alert: WallAlert): BandLine {
  return {
    key: alert.key,
    level: alert.level,
    isFluids: alert.kind === 'fluids',
    forms: alertForms(alert),
    isTaken: alert.taken !== null,
  }
}

const fills = ({ level, isTaken }: BandLine): boolean => level === 'now' && !isTaken

const shapeOf = ({ level, isFluids }: BandLine): Panel['shape'] => {
  if (isFluids) return 'drop'
  if (level === 'now') return 'triangle'
  return level === 'soon' ? 'disc' : 'bar'
}

/** This line in a panel no wider than `roomPx`; null where even its fewest words are wider. */
function panelOf(line: BandLine, roomPx: number, widthOf: WidthOf): Panel | null {
  const isUrgent = fills(line)
  const around = isUrgent ? chrome.now : line.isTaken ? chrome.taken : chrome.other
  const big = { px: isUrgent ? urgentPx : textPx, weight: isUrgent ? weight.label : weight.strong }
  const small = { px: textPx, weight: weight.strong }
  const bar = line.isTaken ? barPadding : 0
  const widthOfForm = ([headline, under]: BandForm) =>
    Math.ceil(Math.max(widthOf(headline, big), widthOf(under, small) + bar) + around)
  const form = line.forms.find((one) => widthOfForm(one) <= roomPx)
  if (!form) return null
  const { key, level, isTaken } = line
  const [headline, under] = form
  return {
    key,
    level,
    shape: shapeOf(line),
    headline,
    line: under,
    isTaken,
    width: widthOfForm(form),
  }
}

/** Two panels side by side: the first as wordy as the second's fewest words leave it. */
function pair(first: BandLine, second: BandLine, at: { roomPx: number; widthOf: WidthOf }) {
  const { roomPx, widthOf } = at
  const fewest = { ...second, forms: second.forms.slice(-1) }
  const least = panelOf(fewest, roomPx, widthOf)
  const a = least && panelOf(first, roomPx - least.width, widthOf)
  const b = a && panelOf(second, roomPx - a.width, widthOf)
  return a && b ? [a, b] : null
}

/** What each page holds: an open "Now" on every one, another thing beside it. */
function pairings(lines: readonly BandLine[]): readonly (readonly BandLine[])[] {
  const urgent = lines.filter(fills)
  const others = lines.filter((line) => !fills(line))
  if (urgent.length === 0) return twoByTwo(others)
  const withNow = others.map((line, at) => [urgent[at % urgent.length] ?? line, line])
  return urgent.length === 1 && withNow.length > 0 ? withNow : [...twoByTwo(urgent), ...withNow]
}

function twoByTwo(lines: readonly BandLine[]): readonly (readonly BandLine[])[] {
  return lines.flatMap((_, at) => (at % 2 === 0 ? [lines.slice(at, at + 2)] : []))
}

/** A pairing as panels; one page each where the two do not fit side by side. */
function panelsOf(
  [first, second]: readonly BandLine[],
  at: { roomPx: number; widthOf: WidthOf },
): readonly (readonly Panel[])[] {
  if (!first) return []
  const both = second ? pair(first, second, at) : null
  if (both) return [both]
  return [first, second].flatMap((line) => {
    const panel = line ? panelOf(line, at.roomPx, at.widthOf) : null
    return panel ? [[panel]] : []
  })
}

/** The page to show: `turn` counts up every eight seconds. Nothing to say is no page. */
export function bandPage(
  lines: readonly BandLine[],
  turn: number,
  widthOf: WidthOf,
): BandPage | null {
  if (lines.length === 0) return null
  const number = widthOf(topWords.page(9, 9), { px: textPx, weight: weight.text }) + pageOfGap
  const pagesIn = (roomPx: number) =>
    pairings(lines).flatMap((pairing) => panelsOf(pairing, { roomPx, widthOf }))
  const whole = pagesIn(page.width)
  const pages = whole.length > 1 ? pagesIn(page.width - number) : whole
  const at = turn % Math.max(1, pages.length)
  return {
    panels: pages[at] ?? [],
    pageOf: pages.length > 1 ? topWords.page(at + 1, pages.length) : null,
  }
}
