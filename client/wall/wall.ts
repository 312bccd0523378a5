// One drawing of the wall from a view: which top it has, how wide the late zone stands, which theme,
// and the page. Pure but for the elements it returns; what must be remembered goes in and comes out.

import type { ComponentChild } from 'preact'
import { type InstantMs, minuteMs } from '../../shared/base/values.ts'
import type { WallView } from '../../shared/views/wallView.ts'
import type { HouseCondition } from '../../shared/wire/frames.ts'
import { type BandLine, bandLine, bandPage } from './band.ts'
import { incubatorMax, type TopKind } from './frame.ts'
import { type LateZone, nextLateZone } from './lateZone.ts'
import type { WidthOf } from './measure.ts'
import { darkPage, wallPage } from './page.ts'
import { sharedLanes } from './sharedLanes.ts'
import { lateNeedOf, stripLayout } from './strip.ts'
import { darkWords, houseLines, openThen, secondWallForms } from './words.ts'

export type WallInput = {
  readonly view: WallView
  readonly house: readonly HouseCondition[]
  readonly nowMs: InstantMs
  readonly isLost: boolean
  readonly time: (atMs: InstantMs) => string
  readonly widthOf: WidthOf
  /** Counts up every eight seconds: the band turns its page. */
  readonly turn: number
  /** The late zone of the drawing before; null for the first. */
  readonly zone: LateZone | null
}
export type WallDrawing = {
  readonly page: ComponentChild
  readonly zone: LateZone | null
  readonly theme: 'dusk' | 'night'
}

/** The wall dims for the last half hour before lights out and until the room opens. */
const dimsBeforeMs = 30 * minuteMs

function themeOf({ hours }: WallView, nowMs: InstantMs): WallDrawing['theme'] {
  if (hours.type === 'alwaysOpen') return 'dusk'
  return hours.type === 'closed' || nowMs >= hours.closesAtMs - dimsBeforeMs ? 'night' : 'dusk'
}

/** What is wrong with the house first, then the room's alerts, then what this wall cannot hold. */
function linesOf({ view, house, time }: WallInput): readonly BandLine[] {
  const { elsewhere } = sharedLanes(view.lanes)
  return [
    ...house.map((condition): BandLine => {
      const { level, forms } = houseLines(condition, time)
      return { key: condition.type, level, forms, isFluids: false, isTaken: false }
    }),
    ...view.alerts.map(bandLine),
    ...(elsewhere.length === 0
      ? []
      : [
          {
            key: 'secondWall',
            level: 'watch' as const,
            forms: secondWallForms(elsewhere, incubatorMax),
            isFluids: false,
            isTaken: false,
          },
        ]),
  ]
}

/** Closed and nobody here: only what is wanted now breaks the dark. */
const isDark = ({ view, isLost }: WallInput, lines: readonly BandLine[]): boolean =>
  !isLost &&
  view.hours.type === 'closed' &&
  view.counts.here === 0 &&
  view.away.length === 0 &&
  lines.every(({ level }) => level !== 'now')

/** Draws the wall, and says what to remember for the next drawing. */
export function drawWall(input: WallInput): WallDrawing {
  const { view, nowMs, time, widthOf, isLost } = input
  const theme = themeOf(view, nowMs)
  const lines = linesOf(input)
  if (isDark(input, lines) && view.opensAgainAtMs !== null) {
    const page = darkPage(time(nowMs), darkWords(time(view.opensAgainAtMs)))
    return { page, zone: null, theme }
  }
  const top: TopKind = isLost ? 'lost' : lines.length > 0 ? 'alerts' : 'calm'
  const zone = nextLateZone(input.zone, lateNeedOf({ view, top, widthOf }), nowMs)
  const layout = stripLayout({ view, nowMs, time, widthOf, top, lateStop: zone.stop })
  const page = wallPage({
    layout,
    band: bandPage(lines, input.turn, widthOf),
    late: view.counts.late,
    pace: view.pace,
    nowMs,
    time,
    lost: isLost ? view.alerts.map(openThen) : null,
  })
  return { page, zone, theme }
}
