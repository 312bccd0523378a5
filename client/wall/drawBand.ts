// The top band as elements: the one calm line, or the panels that fit on this page of it.

import type { ComponentChild } from 'preact'
import { html } from '../ui/html.ts'
import type { BandPage, Panel } from './band.ts'
import { drop } from './drawToken.ts'
import { topWords } from './words.ts'

const triangle = html`<svg class="sign triangle" viewBox="0 0 148 132" aria-hidden="true">
  <path d="M74 8 L140 124 H8Z" stroke-width="14" stroke-linejoin="round" />
  <path class="bang" d="M67 46 h14 l-3 38 h-8z M67 94 h14 v14 h-14z" />
</svg>`

const shapes: Readonly<Record<Panel['shape'], ComponentChild>> = {
  triangle,
  drop: html`<svg class="sign drop" viewBox="0 0 48 60" aria-hidden="true"><path d=${drop} /></svg>`,
  disc: html`<svg class="sign disc" viewBox="0 0 84 84" aria-hidden="true">
    <circle cx="42" cy="42" r="36" />
  </svg>`,
  bar: html`<svg class="sign" viewBox="0 0 84 84" aria-hidden="true">
    <rect y="30" width="84" height="24" />
  </svg>`,
}

function panel(one: Panel): ComponentChild {
  const standing = one.isTaken ? 'taken' : `open-${one.level}`
  const under = one.isTaken
    ? html`<p class="has-it"><span>${one.line}</span></p>`
    : html`<p class="under">${one.line}</p>`
  return html`<article
    class=${`alert ${one.level} ${standing}`}
    key=${one.key}
    data-testid=${`alert-${one.level}`}
  >
    ${shapes[one.shape]}
    <div class="say">
      <h1 class="headline">${one.headline}</h1>
      ${under}
    </div>
  </article>`
}

/** The band; with nothing open it is one soft line. */
export function drawBand(page: BandPage | null): ComponentChild {
  if (page === null)
    return html`<h1 class="calm-words" data-testid="no-alerts">${topWords.noAlerts}</h1>`
  return html`<div class="band" data-testid="band">
    ${page.panels.map(panel)}
    ${page.pageOf === null ? null : html`<p class="page-of">${page.pageOf}</p>`}
  </div>`
}
