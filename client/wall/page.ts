// The wall's page as elements, from its layout: band, scale, lanes with the lamp, foot. Everything that
// drifts hangs on one of two anchors, the lamp's left edge and the line, so that it moves as one sheet.

import type { ComponentChild } from 'preact'
import type { InstantMs } from '../../shared/base/values.ts'
import type { Pace } from '../../shared/views/wallPace.ts'
import { html } from '../ui/html.ts'
import { paceWords } from '../ui/paceWords.ts'
import { notLiveSince } from '../ui/words.ts'
import type { BandPage } from './band.ts'
import { drawBand } from './drawBand.ts'
import { drawCount, drawToken, rem } from './drawToken.ts'
import type { FootItem } from './foot.ts'
import { type Frame, lateLeft, tile } from './frame.ts'
import { mouthPath } from './mouth.ts'
import type { LaneLayout, StripLayout } from './strip.ts'
import { stripWords, topWords } from './words.ts'

export type WallPage = {
  readonly layout: StripLayout
  readonly band: BandPage | null
  readonly late: number
  readonly pace: Pace
  readonly nowMs: InstantMs
  readonly time: (atMs: InstantMs) => string
  /** Alerts still open when the link was lost, in words; null while live. */
  readonly lost: readonly string[] | null
}

function lane(of: LaneLayout, frame: Frame): ComponentChild {
  const tokens = (list: LaneLayout['late']) => list.map((token) => drawToken(token, frame.sizes))
  const [first] = of.tiles
  const tiles = of.tiles.map(
    ({ key, label }, at) =>
      html`<b class="tile" key=${key} style=${{ left: rem(tile.left + at * (tile.width + tile.gap)) }}>
        <span>${label}</span>
      </b>`,
  )
  const extra = (of.tiles.length - 1) * (tile.width + tile.gap)
  return html`<li class="lane" key=${first?.key} data-testid=${`lane-${first?.label}`}>
    <i class=${of.isBehind ? 'past some' : 'past'} /><i class="ahead" />
    ${tiles}
    <span class="early" style=${{ left: rem(lateLeft + extra) }}>${drawCount(of.lateCounted, 'late-count')}</span>
    <ol class="at-lamp">
      ${tokens(of.late)} ${tokens(of.hands)} ${drawCount(of.handsCounted, 'hands-count')}
    </ol>
    <ol class="at-line">${tokens(of.coming)}</ol>
    ${drawCount(of.comingCounted, 'coming-count')}
  </li>`
}

function scale({ layout, late, pace, nowMs, time, lost }: WallPage): ComponentChild {
  const lateText = late > 0 ? stripWords.late(late) : stripWords.noneLate
  return html`<header class="scale">
    <p class=${late > 0 ? 'how-late some-late' : 'how-late'} data-testid="late-count">
      ${lost ? layout.scale.asItWas : pace.type === 'closed' ? '' : lateText}
    </p>
    <time class="clock" data-testid="clock">${time(nowMs)}</time>
    <div class="at-line">
      ${layout.scale.ticks.map(({ atMs, x, text }) =>
        text === null
          ? null
          : html`<p class="tick" key=${atMs} style=${{ transform: `translateX(${rem(x)})` }}>
              <span>${text}</span>
            </p>`,
      )}
    </div>
    <p class="end">${layout.scale.end}</p>
  </header>`
}

/** The lines of the tens, and the edge at lights out. */
function sheet({ scale: { ticks }, edgePx }: StripLayout): ComponentChild {
  return html`<div class="sheet at-line">
    ${ticks.map(
      ({ atMs, x }) =>
        html`<i class="ten" key=${atMs} style=${{ transform: `translateX(${rem(x)})` }} />`,
    )}
    ${
      edgePx === null || edgePx <= 0
        ? null
        : html`<i class="asleep" key="edge" style=${{ transform: `translateX(${rem(edgePx)})` }} />`
    }
  </div>`
}

const openMouth = mouthPath(92, 60, 6)
const shutMouth = 'M4 33 Q46 20 88 33 Q46 46 4 33Z'

function footItem({ key, is, text }: FootItem): ComponentChild {
  const mouth = html`<svg class="perhaps" viewBox="0 0 92 60" aria-hidden="true">
    <path d=${openMouth} />
  </svg>`
  return html`<span class=${`item is-${is}`} key=${key}>
    ${is === 'doubt' ? mouth : null}<span>${text}</span>
  </span>`
}

function foot({ layout, pace, time }: WallPage): ComponentChild {
  const { items, rest } = layout.foot
  const isBehind = pace.type === 'behind'
  return html`<footer class="foot" data-testid="foot">
    <p class="people">
      ${items.map(footItem)} ${rest === null ? null : html`<span class="item">${rest}</span>`}
    </p>
    <p class="pace" data-testid="pace">
      <svg class=${isBehind ? 'pace-mouth pace-behind' : 'pace-mouth'} viewBox="0 0 92 60" aria-hidden="true"><path d=${isBehind ? openMouth : shutMouth} /></svg>
      <span>${paceWords(pace, time)}</span>
    </p>
  </footer>`
}

function lostPanel(since: string, open: readonly string[]): ComponentChild {
  return html`<div class="lost-panel" data-testid="not-live">
    <h1 class="lost-head">${notLiveSince(since)}</h1>
    <p class="lost-line">${topWords.sayAloud}</p>
    ${open.length === 0 ? null : html`<p class="lost-line">${topWords.stillOpen(open)}</p>`}
  </div>`
}

/** The page. Not live, it stands still under a white panel that takes the foot's place. */
export function wallPage(wall: WallPage): ComponentChild {
  const { layout, lost } = wall
  const { frame } = layout
  const { sizes } = frame
  const lengths = {
    '--top': rem(frame.topHeight),
    '--scale': rem(frame.scaleHeight),
    '--foot': rem(frame.footHeight),
    '--late-right': rem(frame.lateRight),
    '--now-x': rem(frame.nowX),
    '--token': rem(sizes.token),
    '--label-size': rem(sizes.label),
    '--who-size': rem(sizes.who),
    '--lip': rem(sizes.lip),
    '--lift': rem(sizes.lift),
    '--clock': rem(frame.clockPx),
    '--lamp-top': rem(frame.top === 'calm' ? 18 : frame.topHeight + 8),
  }
  return html`<div class=${`page ${frame.top}`} style=${lengths}>
    <div class="lamp" />
    <section class="top">
      ${lost ? lostPanel(wall.time(wall.nowMs), lost) : drawBand(wall.band)}
    </section>
    ${scale(wall)}
    <ol class="lanes">${layout.lanes.map((one) => lane(one, frame))}</ol>
    ${sheet(layout)} ${lost ? null : foot(wall)}
  </div>`
}

/** Closed, nobody here and nothing open: dark and still. */
export function darkPage(clock: string, until: string): ComponentChild {
  return html`<div class="dark" data-testid="dark">
    <time class="dark-clock" data-testid="clock">${clock}</time>
    <h1 class="closed-until">${until}</h1>
  </div>`
}
