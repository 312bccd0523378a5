// A nest's state as a shape on paper: the wall's mouths, bars and boxes, small and with an ink outline,
// because yellow on paper has no contrast of its own. The words beside it say the same.

import type { ComponentChild } from 'preact'
import type { LengthMs } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'
import type { DeskNest } from '../../shared/views/deskNests.ts'
import { html } from '../ui/html.ts'
import { nestWords } from './words.ts'

/** From so late on a mouth is drawn wide, with a rim. */
const veryLateMs: LengthMs = 10 * minuteMs

export type Mark = keyof typeof nestWords.stateNames

export function markOf({ state, trouble }: Pick<DeskNest, 'state' | 'trouble'>): Mark {
  if (trouble) return 'trouble'
  return state.type === 'late' && state.lateMs >= veryLateMs ? 'veryLate' : state.type
}

const open = 'M2 11Q22-8 42 11Q22 30 2 11Z'
const shut = 'M4 11Q22 6 40 11Q22 16 4 11Z'

function shapeOf(mark: Mark): ComponentChild {
  switch (mark) {
    case 'trouble':
      return html`<path class="fill-now" d="M22 1L34 21H10Z" />`
    case 'veryLate':
      return html`<path class="fill-late" d=${open} /><path class="rim" d="M8 11Q22-2 36 11Q22 24 8 11Z" />`
    case 'late':
    case 'due':
      return html`<path class="fill-gape" d=${open} />`
    case 'soon':
      return html`<path class="fill-gape" d=${shut} />`
    case 'later':
      return html`<path class="fill-mark" d=${shut} />`
    case 'claimed':
      return html`<rect class="fill-hand" x="3" y="3" width="38" height="16" rx="8" />`
    case 'held':
      return html`<rect class="fill-none" x="10" y="3" width="24" height="16" /><path class="strike" d="M10 11L18 3M10 19L26 3M18 19L34 3M26 19L34 11" />`
    case 'settling':
      return html`<path class="fill-none" d="M9 20A13 17 0 0 1 35 20Z" />`
    case 'unplanned':
      return html`<rect class="fill-none dotted" x="10" y="3" width="24" height="16" />`
  }
}

export const stateMark = (mark: Mark): ComponentChild =>
  html`<svg class="state-mark" viewBox="0 0 44 22" role="img" aria-label=${nestWords.stateNames[mark]}>
    ${shapeOf(mark)}
  </svg>`
