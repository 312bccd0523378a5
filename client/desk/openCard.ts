// One open thing: a shape, what it is, what is known of it, and what can be done. Only "now" is filled.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../shared/base/values.ts'
import { html } from '../ui/html.ts'
import type { Served } from './desk.ts'
import { linkPress } from './press.ts'
import { openWords } from './words.ts'

/** The same shapes as on the wall; those of the second list are drawn by their outline. */
const filled = {
  triangle: 'M15 2L28 26H2Z',
  drop: 'M15 1C19 9 26 14 26 20A11 11 0 0 1 4 20C4 14 11 9 15 1Z',
  disc: 'M15 4A11 11 0 1 1 14.9 4Z',
  bar: 'M4 11H26V19H4Z',
} as const
const outlined = {
  /** A bird that was not counted back. */
  openRing: 'M21 6A11 11 0 1 0 25 19',
  /** Perhaps fed: a mouth with a broken outline. */
  brokenMouth: 'M2 15Q15-4 28 15Q15 34 2 15Z',
  /** Recorded twice. */
  twoMouths: 'M3 9Q15 4 27 9Q15 14 3 9ZM3 21Q15 16 27 21Q15 26 3 21Z',
  struckBox: 'M4 7H26V23H4ZM4 23L26 7',
  dome: 'M3 24A12 17 0 0 1 27 24Z',
} as const

export type Sign = keyof typeof filled | keyof typeof outlined

const isFilled = (sign: Sign): sign is keyof typeof filled => sign in filled

type Card = {
  readonly id: string
  /** `now` is filled while nobody has it; a taken one is outlined. */
  readonly kind: 'now' | 'taken' | 'plain'
  readonly mark: Sign
  readonly title: string
  readonly lines: readonly string[]
  /** The way to the nest it is about. */
  readonly link?: ComponentChild
  readonly acts?: ComponentChild
  readonly form?: ComponentChild
}

function signMark(sign: Sign): ComponentChild {
  return html`<svg class=${isFilled(sign) ? `sign ${sign}` : `sign line ${sign}`} viewBox="0 0 30 30" aria-hidden="true">
    <path d=${isFilled(sign) ? filled[sign] : outlined[sign]} />
  </svg>`
}

export function openCard({ id, kind, mark, title, lines, link, acts, form }: Card): ComponentChild {
  return html`<li class=${`card ${kind}`} key=${id} data-testid=${id}>
    <h3>
      ${signMark(mark)}
      <span>${title}</span>
      ${link ?? null}
    </h3>
    ${lines.length === 0 ? null : html`<p>${lines.join(' ')}</p>`}
    ${form ?? (acts ? html`<p class="acts">${acts}</p>` : null)}
  </li>`
}

/** The way to the nest it is about. */
export const toNest = (
  desk: Served,
  { nest, label }: { readonly nest: NestId; readonly label: string },
): ComponentChild =>
  linkPress({
    id: `to-${nest}`,
    text: openWords.toNest(label),
    onPress: () => desk.change({ tab: 'nests', nest, form: null, notice: null }),
  })
