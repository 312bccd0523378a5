// What is clicked at a desk. An ask is off while another is awaited or nothing can be asked, and says
// that it asks; a press that only turns a page, or keeps a record, is never off.

import type { ComponentChild } from 'preact'
import type { AskType, CommandOf } from '../../shared/board/commands.ts'
import { html } from '../ui/html.ts'
import type { Desk } from './desk.ts'
import { headWords } from './words.ts'

type Press = {
  readonly id: string
  readonly text: string
  /** Said to those who hear the page, where the text alone would not say which. */
  readonly aria?: string
  readonly onPress: () => void
  readonly isOff?: boolean
}

function button(kind: string, { id, text, aria, onPress, isOff }: Press): ComponentChild {
  return html`<button
    type="button"
    class=${kind}
    data-testid=${id}
    aria-label=${aria}
    disabled=${isOff ?? false}
    onClick=${onPress}
  >
    ${text}
  </button>`
}

export const press = (what: Press): ComponentChild => button('act', what)
export const mainPress = (what: Press): ComponentChild => button('act main', what)
/** A word in a line of text. */
export const linkPress = (what: Press): ComponentChild => button('link', what)

export const isAskOff = (desk: Desk): boolean => desk.ui.asking !== null || !desk.snapshot.canAsk

/** An ask by one click. */
export const askPress = (
  desk: Desk,
  what: Omit<Press, 'onPress' | 'isOff'> & { readonly command: CommandOf<AskType> },
): ComponentChild =>
  press({
    ...what,
    text: desk.ui.asking === what.id ? headWords.asking : what.text,
    isOff: isAskOff(desk),
    onPress: () => void desk.actions.ask(what.id, what.command),
  })
