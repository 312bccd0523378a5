// One open thing: a shape, what it is, what is known of it, and what can be done. Only "now" is filled.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../shared/base/values.ts'
import { html } from '../ui/html.ts'
import type { Served } from './desk.ts'
import { linkPress } from './press.ts'
import { openWords } from './words.ts'

type Card = {
  readonly id: string
  /** `now` is filled while nobody has it; a taken one is outlined. */
  readonly kind: 'now' | 'taken' | 'plain'
  readonly mark: 'triangle' | 'drop' | 'disc' | 'bar' | 'ring'
  readonly title: string
  readonly lines: readonly string[]
  /** The way to the nest it is about. */
  readonly link?: ComponentChild
  readonly acts?: ComponentChild
  readonly form?: ComponentChild
}

const paths: Readonly<Record<Card['mark'], string>> = {
  triangle: 'M15 2L28 26H2Z',
  drop: 'M15 1C19 9 26 14 26 20A11 11 0 0 1 4 20C4 14 11 9 15 1Z',
  disc: 'M15 4A11 11 0 1 1 14.9 4Z',
  bar: 'M4 11H26V19H4Z',
  ring: 'M15 4A11 11 0 1 1 14.9 4ZM15 10A5 5 0 1 0 15.1 10Z',
}

export function openCard({ id, kind, mark, title, lines, link, acts, form }: Card): ComponentChild {
  return html`<li class=${`card ${kind}`} key=${id} data-testid=${id}>
    <h3>
      <svg class=${`sign ${mark}`} viewBox="0 0 30 30" aria-hidden="true"><path d=${paths[mark]} fill-rule="evenodd" /></svg>
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
