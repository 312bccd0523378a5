// The wall's page as elements: what is late, what is due, who has what, lane by lane. Everything it
// says comes from the view and the words; how much of it a lane says comes from fit.ts.

import type { ComponentChild } from 'preact'
import type { InstantMs } from '../../shared/base/values.ts'
import type { Hours } from '../../shared/views/hours.ts'
import type { Away, Lane, WallView } from '../../shared/views/wallView.ts'
import { html } from '../ui/html.ts'
import { formerHelper, notLiveSince, wallWords } from '../ui/words.ts'
import { fitLane, lane as laneSize, padding, page, type Shown, sizes } from './fit.ts'
import { tokenWidth, type WidthOf } from './measure.ts'
import { tokenOf } from './tokens.ts'

export type Wall = {
  readonly view: WallView
  readonly nowMs: InstantMs
  readonly time: (atMs: InstantMs) => string
  readonly widthOf: WidthOf
  /** What is wrong with the house, in words. */
  readonly house: readonly string[]
  /** The last instant heard, where nothing was heard for too long. */
  readonly notLiveSinceMs: InstantMs | null
}

const rem = (px: number): string => `${px / 10}rem`
/** People away who are named; more are counted. */
const awayMax = 3

function nest({ token, form }: Shown): ComponentChild {
  const words = form.doubt ? html`<span>${form.doubt}</span>` : null
  const chip = form.doubt === null ? null : html`<span class="doubt"><b>?</b>${words}</span>`
  const detail = form.detail === '' ? null : html`<span class="detail">${form.detail}</span>`
  return html`<div
    class=${`nest ${token.kind}`}
    key=${token.nest}
    data-testid=${`nest-${token.label}`}
    data-state=${token.kind}
    data-doubt=${form.doubt === null ? null : 'yes'}
  >
    <span class="body" style=${{ padding: `0 ${rem(padding[token.kind] / 2)}` }}>
      <b>${token.shown}</b>${detail}
    </span>
    ${chip}
  </div>`
}

function laneRow(wall: Wall, lane: Lane): ComponentChild {
  const size = sizes(wall.view.lanes.length)
  const tokens = lane.nests.map((summary) => tokenOf(summary, wall.time, wall.nowMs))
  const widthPx = page.width - 2 * laneSize.side - laneSize.incubator - laneSize.gap
  const { shown, rest } = fitLane(tokens, widthPx, (one) => tokenWidth(one, size, wall.widthOf))
  return html`<section
    class="lane"
    key=${lane.incubator}
    data-testid=${`lane-${lane.label}`}
    style=${{ fontSize: rem(size.label), '--detail': rem(size.detail) }}
  >
    <span class="incubator"><span>${lane.label}</span></span>
    ${shown.map(nest)}
    ${rest > 0 ? html`<span class="rest">${wallWords.rest(rest)}</span>` : null}
  </section>`
}

function hours(wall: Wall, at: Hours): ComponentChild {
  if (at.type === 'alwaysOpen') return null
  const words =
    at.type === 'open'
      ? wallWords.closesAt(wall.time(at.closesAtMs))
      : wallWords.closedUntil(wall.time(at.opensAtMs))
  return html`<span class="quiet end" data-testid="hours">${words}</span>`
}

function top(wall: Wall): ComponentChild {
  const { counts } = wall.view
  const late = counts.late > 0 ? wallWords.countLate(counts.late) : wallWords.noneLate
  return html`<header class="top">
    <time data-testid="clock">${wall.time(wall.nowMs)}</time>
    <span class=${counts.late > 0 ? 'late' : 'quiet'} data-testid="late-count">${late}</span>
    ${counts.due > 0 ? html`<span data-testid="due-count">${wallWords.countDue(counts.due)}</span>` : null}
    ${hours(wall, wall.view.hours)}
  </header>`
}

function lost(wall: Wall, sinceMs: InstantMs): ComponentChild {
  const since = wall.time(sinceMs)
  return html`<header class="lost" data-testid="not-live">
    <h1>${notLiveSince(since)}</h1>
    <p>${wallWords.asItWas(since)}</p>
  </header>`
}

function away(wall: Wall, one: Away): ComponentChild {
  const back = one.backAtMs === null ? null : wall.time(one.backAtMs)
  return html`<span class="away" key=${one.person}>
    ${wallWords.back(one.name ?? formerHelper, back)}
  </span>`
}

function foot(wall: Wall): ComponentChild {
  const { counts, away: gone } = wall.view
  return html`<footer class="foot" data-testid="foot">
    <span>${wallWords.here(counts.here, counts.free)}</span>
    ${gone.slice(0, awayMax).map((one) => away(wall, one))}
    ${gone.length > awayMax ? html`<span>${wallWords.moreAway(gone.length - awayMax)}</span>` : null}
  </footer>`
}

/** The whole page. Not live, it stands still under a white panel and the foot gives way to it. */
export function wallPage(wall: Wall): ComponentChild {
  const since = wall.notLiveSinceMs
  const [worst] = wall.house
  return html`<div class=${since === null ? 'page' : 'page frozen'}>
    ${since === null ? top(wall) : lost(wall, since)}
    ${since === null && worst ? html`<p class="house" data-testid="house">${worst}</p>` : null}
    <div class="lanes">${wall.view.lanes.map((lane) => laneRow(wall, lane))}</div>
    ${since === null ? foot(wall) : null}
  </div>`
}
