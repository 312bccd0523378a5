// The row over the lanes: the round tens of minutes that drift with the nests, and at lights out the
// edge of the day with its time, and until when the room sleeps. Positions count from the line.

import { type InstantMs, minuteMs } from '../../shared/base/values.ts'
import type { Hours } from '../../shared/views/hours.ts'
import { type Frame, page, textPx } from './frame.ts'
import { type WidthOf, weight } from './measure.ts'
import { leftOf } from './stripComing.ts'
import { stripWords } from './words.ts'

/** A line through the lanes; its time is null where the row has no room for it. */
export type Tick = { readonly atMs: InstantMs; readonly x: number; readonly text: string | null }
export type Scale = {
  readonly ticks: readonly Tick[]
  readonly end: string
  /** What stands before the clock where the board is as it was at its time. */
  readonly asItWas: string
}

const tenMinutesMs = 10 * minuteMs
const endMargin = 28
/** Between two words of the row. */
const wordGap = 24

export type ScaleInput = {
  readonly nowMs: InstantMs
  readonly hours: Hours
  readonly opensAgainAtMs: InstantMs | null
  readonly time: (atMs: InstantMs) => string
  readonly widthOf: WidthOf
}

/** Where lights go out, from the line; 0 while they are out, null while beyond the window. */
export function edgeOf(hours: Hours, nowMs: InstantMs, widthPx: number): number | null {
  if (hours.type === 'alwaysOpen') return null
  if (hours.type === 'closed') return 0
  const edgePx = leftOf(hours.closesAtMs, nowMs)
  return edgePx < widthPx ? edgePx : null
}

/** The round tens between the line and `toPx`, as the clock in the room shows them. */
function tensOf({ nowMs, time }: ScaleInput, toPx: number): readonly InstantMs[] {
  const shown = Number(time(nowMs).slice(-2))
  const wholeMs = Math.floor(nowMs / minuteMs) * minuteMs
  const firstMs = wholeMs + (10 - (shown % 10)) * minuteMs
  const tens: InstantMs[] = []
  for (let atMs = firstMs; leftOf(atMs, nowMs) < toPx; atMs += tenMinutesMs) tens.push(atMs)
  return tens
}

function endOf({ opensAgainAtMs, time }: ScaleInput, isEdge: boolean): readonly string[] {
  if (!isEdge) return [stripWords.later]
  return opensAgainAtMs === null ? [''] : stripWords.asleepUntil(time(opensAgainAtMs))
}

type Words = { readonly from: number; readonly to: number }

/** Adds a word to those of the row where it touches none of them. */
function hasRoom(taken: Words[], word: Words): boolean {
  const fits = taken.every(({ from, to }) => word.to + wordGap <= from || word.from - wordGap >= to)
  if (fits) taken.push(word)
  return fits
}

/** The row for this frame. */
export function scaleRow(frame: Frame, input: ScaleInput): Scale {
  const { hours, nowMs, time } = input
  const width = (text: string) =>
    text === '' ? 0 : input.widthOf(text, { px: textPx, weight: weight.text })
  const edgePx = edgeOf(hours, nowMs, frame.comingWidth)
  const right = page.width - frame.nowX - endMargin
  const wordAt = (atMs: InstantMs): Words => {
    const half = width(time(atMs)) / 2
    return { from: leftOf(atMs, nowMs) - half, to: leftOf(atMs, nowMs) + half }
  }
  const takenBy = (end: string): Words[] => [
    { from: Number.NEGATIVE_INFINITY, to: 0 },
    { from: right - width(end), to: Number.POSITIVE_INFINITY },
  ]
  const edge = hours.type === 'open' && edgePx !== null ? [hours.closesAtMs] : []
  const forms = endOf(input, edgePx !== null).filter((end) => width(end) <= right - wordGap)
  // Rather fewer words about the morning than no time at the edge.
  const worded = forms.filter((end) => end !== '')
  const end =
    worded.find((form) => edge.every((atMs) => hasRoom(takenBy(form), wordAt(atMs)))) ??
    forms[0] ??
    ''
  const taken = takenBy(end)
  const tickOf = (atMs: InstantMs): Tick => ({
    atMs,
    x: leftOf(atMs, nowMs),
    text: hasRoom(taken, wordAt(atMs)) ? time(atMs) : null,
  })
  // The day's last minute first: it is said rather than the ten beside it.
  const last = edge.map(tickOf)
  const tens = tensOf(input, edgePx ?? frame.comingWidth).map(tickOf)
  const asItWas = stripWords.asItWas.find((form) => width(form) <= frame.lateRight - 2 * endMargin)
  return { ticks: [...tens, ...last], end, asItWas: asItWas ?? '' }
}
