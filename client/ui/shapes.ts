// Shapes that carry meaning: a band has a colour, a shape of its own and its word, so that it is told
// apart in grey light too. Drawn here, used wherever a bird is named.

import type { ComponentChild } from 'preact'
import { html } from './html.ts'

type Mark = { readonly fill: string; readonly path: string }

const circle = 'M22 4a18 18 0 1 0 0 36a18 18 0 1 0 0-36Z'
const marks: Readonly<Record<string, Mark>> = {
  red: { fill: '#f0593e', path: circle },
  blue: { fill: '#3f8ee0', path: 'M5 8q0-3 3-3h28q3 0 3 3v28q0 3-3 3H8q-3 0-3-3Z' },
  yellow: {
    fill: '#f5d93a',
    path: 'M22 3l5.6 12.3 13.4 1.5-10 9 2.8 13.2L22 32.3 10.2 39l2.8-13.2-10-9 13.4-1.5Z',
  },
  green: { fill: '#2f9e6b', path: 'M16 4h12v12h12v12H28v12H16V28H4V16h12Z' },
  white: {
    fill: '#f6f0e2',
    path: `${circle}M22 13a9 9 0 1 1 0 18a9 9 0 1 1 0-18Z`,
  },
  orange: { fill: '#f28c28', path: 'M22 4l18 34H4Z' },
  pink: { fill: '#e99ac4', path: 'M22 3l18 19-18 19L4 22Z' },
  purple: { fill: '#9a7fd1', path: 'M12 5h20l9 17-9 17H12L3 22Z' },
  black: { fill: '#12110e', path: 'M4 15h36v14H4Z' },
}
/** A band of another colour, or none: an empty outline; the word says which. */
const other: Mark = { fill: 'none', path: circle }

/** The mark of a band; the word beside it is the page's to write. */
export function bandMark(band: string | null): ComponentChild {
  const mark = (band === null ? undefined : marks[band.toLowerCase()]) ?? other
  return html`<svg class="band" viewBox="0 0 44 44" aria-hidden="true">
    <path
      d=${mark.path}
      fill=${mark.fill}
      fill-rule="evenodd"
      stroke="#f6f0e2"
      stroke-width="3"
      stroke-linejoin="round"
    />
  </svg>`
}

/** The mouth around a nest's label: open while it waits, shut when it does not. */
export function mouth(state: 'late' | 'veryLate' | 'due' | 'soon' | 'shut'): ComponentChild {
  const open = 'M7 112Q89 20 179 7Q269 20 351 112Q269 204 179 217Q89 204 7 112Z'
  const shut = 'M7 196Q89 176 179 172Q269 176 351 196Q269 214 179 217Q89 214 7 196Z'
  const isOpen = state === 'late' || state === 'veryLate' || state === 'due'
  return html`<svg class=${`mouth ${state}`} viewBox="0 0 358 224" aria-hidden="true">
    <path d=${isOpen ? open : shut} stroke-width="14" stroke-linejoin="round" />
  </svg>`
}

/** "Now": somebody is called, and no other shape means it. */
export const nowMark = (): ComponentChild =>
  html`<svg class="now-mark" viewBox="0 0 148 132" aria-hidden="true">
    <path
      d="M74 8L140 124H8Z"
      fill="currentColor"
      stroke="currentColor"
      stroke-width="14"
      stroke-linejoin="round"
    />
    <path class="bang" d="M67 46h14l-3 38h-8ZM67 94h14v14h-14Z" />
  </svg>`
