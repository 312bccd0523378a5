// The nest that comes next, as large as on the wall, and why it is this one.

import type { ComponentChild } from 'preact'
import { nestWarnings } from '../../../shared/views/nestWarnings.ts'
import type { NextNest } from '../../../shared/views/nextView.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { mouth } from '../../ui/shapes.ts'
import { birdsWords, techniqueWords } from '../../ui/words.ts'
import type { Served } from '../hand.ts'
import { handWords, whyThisWords } from '../words.ts'
import { warningLines } from './warnings.ts'

const veryLateMinutes = 10

function shapeOf(next: NextNest): Parameters<typeof mouth>[0] {
  if (next.why === 'window') return 'soon'
  if (next.why === 'due') return 'due'
  return wholeMinutes(next.lateMs) >= veryLateMinutes ? 'veryLate' : 'late'
}

function hero(next: NextNest, size: 'large' | 'small'): ComponentChild {
  const shape = shapeOf(next)
  const minutes = wholeMinutes(next.lateMs)
  return html`<div class=${`hero ${shape} ${size}`}>
    ${mouth(shape)}
    <b role="heading" aria-level="1" data-testid="next-label">${next.summary.label}</b>
    ${minutes > 0 ? html`<b>${minutes}</b>` : null}
  </div>`
}

function warnings(hand: Served, next: NextNest): ComponentChild {
  const nest = hand.board.nests[next.summary.nest]
  return nest ? warningLines(hand, nestWarnings(hand.board, hand.names, nest)) : null
}

/** Drawn smaller where something else must be read first. */
export function nextNestLines(
  hand: Served,
  next: NextNest,
  size: 'large' | 'small',
): ComponentChild {
  const { summary } = next
  const birds = handWords.every(birdsWords(next.birds), next.species.join(', '))
  const ways = [...new Set(next.plans.map(({ technique }) => techniqueWords[technique]))]
  return html`
    ${hero(next, size)} ${warnings(hand, next)}
    <div class="facts">
      <p class="where">
        <span class="box">${summary.incubatorLabel}</span>${handWords.incubator(summary.incubatorLabel)}
      </p>
      <p class="why" data-testid="why">${whyThisWords[next.why](wholeMinutes(next.lateMs))}</p>
      <p>${birds}; ${ways.join(', ')}</p>
      ${summary.isQuarantined ? html`<p class="strong">${handWords.quarantined}</p>` : null}
    </div>
  `
}
