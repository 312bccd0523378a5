// Where the parts of the wall stand, from a few facts: how many lanes, how high the band, how wide the
// late zone. All lengths are pixels of a page of 1920 by 1080, which scales as a whole.

export const page = { width: 1920, height: 1080 } as const
/** A minute of the strip, in every room. */
export const minutePx = 36
/** Tiles of incubators, and where what is late may begin. */
export const tile = { left: 20, width: 88, gap: 6 } as const
export const lateLeft = 112
export const lampWidth = 476
/** The column at the right that holds "+2". */
export const countWidth = 104
/** Between neighbours on the strip. */
export const gap = 6
/** Widths of the late zone; the smallest that holds the fullest lane is drawn. */
export const lateStops: readonly number[] = [216, 432, 600, 760]

export const laneMax = 10
/** Two incubators may share a lane, up to so many; more need a second wall. */
export const incubatorMax = 14

/** What stands on top: one calm line, a band of alerts, or the panel that says NOT LIVE. */
export type TopKind = 'calm' | 'alerts' | 'lost'

export type Sizes = {
  /** Height of a nest's shape, and of its label's and name's type. */
  readonly token: number
  readonly label: number
  readonly who: number
  /** A shut mouth's height, and how far it lifts the label. */
  readonly lip: number
  readonly lift: number
}
const large: Sizes = { token: 92, label: 96, who: 76, lip: 12, lift: 10 }
const small: Sizes = { token: 60, label: 70, who: 70, lip: 9, lift: 12 }
/** Type of words that are no label. */
export const textPx = 70

export type Frame = {
  readonly top: TopKind
  readonly topHeight: number
  readonly scaleHeight: number
  readonly footHeight: number
  readonly laneHeight: number
  readonly sizes: Sizes
  readonly clockPx: number
  /** The right end of the late zone, and the line. */
  readonly lateRight: number
  readonly nowX: number
  /** From the line to the count's column. */
  readonly comingWidth: number
}

const heights = {
  calm: { top: 96, scale: 100, foot: 186, clock: 156 },
  alerts: { top: 186, scale: 86, foot: 172, clock: 86 },
  lost: { top: 356, scale: 84, foot: 10, clock: 70 },
} as const

export function frameOf(lanes: number, top: TopKind, lateStop: number): Frame {
  const { top: topHeight, scale: scaleHeight, foot: footHeight, clock } = heights[top]
  const laneHeight = (page.height - topHeight - scaleHeight - footHeight) / Math.max(1, lanes)
  const lateRight = lateLeft + lateStop
  const nowX = lateRight + lampWidth
  return {
    top,
    topHeight,
    scaleHeight,
    footHeight,
    laneHeight,
    sizes: laneHeight >= 100 ? large : small,
    clockPx: clock,
    lateRight,
    nowX,
    comingWidth: page.width - countWidth - nowX,
  }
}
