// What a wet glove presses. A primary press is at least 126 pixels tall, a secondary 94, and the style
// sheet keeps 19 between them; every press acts on release, inside its target, and never by holding.

import type { ComponentChild } from 'preact'
import { html } from './html.ts'

export type Press = {
  readonly id: string
  readonly text: ComponentChild
  readonly small?: ComponentChild
  readonly isOff?: boolean
  readonly onPress: () => void
}

function press(kind: string, { id, text, small, isOff, onPress }: Press): ComponentChild {
  // A press that comes to say something else is another button: a finger that went down on "Claim F"
  // does nothing when the board makes it "Claim G" before it comes up.
  return html`<button
    key=${`${id} ${text}`}
    type="button"
    class=${`press ${kind}`}
    data-testid=${id}
    disabled=${isOff ?? false}
    onClick=${onPress}
  >
    <span>${text}</span>
    ${small ? html`<small>${small}</small>` : null}
  </button>`
}

/** The one thing this page is for. */
export const primary = (what: Press): ComponentChild => press('primary', what)

/** A second way to end the same page, as easy to hit and less loud. */
export const primaryQuiet = (what: Press): ComponentChild => press('primary quiet', what)

export const second = (what: Press): ComponentChild => press('second', what)

/** One of several of which one is taken. */
export const choice = (what: Press & { readonly isOn: boolean }): ComponentChild =>
  press(what.isOn ? 'second on' : 'second', what)

/** Presses side by side, two to a line. */
export const pair = (...presses: readonly ComponentChild[]): ComponentChild =>
  html`<div class="pair">${presses}</div>`

/** Presses side by side, three to a line. */
export const three = (...presses: readonly ComponentChild[]): ComponentChild =>
  html`<div class="three">${presses}</div>`
