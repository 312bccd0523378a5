// The whole desk: head, what is open and who is here on the left, and on the right the part somebody
// turned to. Nobody sees more than the name tiles before they have signed in.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import { hasRight } from '../../shared/board/rights.ts'
import { html } from '../ui/html.ts'
import type { Desk, Served } from './desk.ts'
import { handsPart } from './handsPart.ts'
import { alarms, head } from './head.ts'
import { journalPage } from './journalPage.ts'
import { nestPage } from './nestPage.ts'
import { nestsTable } from './nestsTable.ts'
import { openPart } from './openPart.ts'
import { peoplePage } from './peoplePage.ts'
import { plansPage } from './plansPage.ts'
import { roomPage } from './roomPage.ts'
import { signInPage } from './signIn.ts'
import { type Tab, tabs } from './ui.ts'
import { headWords, tabWords } from './words.ts'

function part(desk: Served): ComponentChild {
  const { tab, nest } = desk.ui
  switch (tab) {
    case 'nests':
      return (nest === null ? null : nestPage(desk, nest)) ?? nestsTable(desk)
    case 'people':
      return peoplePage(desk)
    case 'plans':
      return plansPage(desk)
    case 'room':
      return roomPage(desk)
    case 'journal':
      return journalPage(desk)
    default:
      return unreachable(tab)
  }
}

const tabPress = (desk: Desk, tab: Tab): ComponentChild => html`<button
  type="button"
  key=${tab}
  class=${desk.ui.tab === tab ? 'tab on' : 'tab'}
  aria-current=${desk.ui.tab === tab ? 'page' : undefined}
  data-testid=${`tab-${tab}`}
  onClick=${() => desk.change({ tab, nest: null, form: null, notice: null, code: null })}
>
  ${tabWords[tab]}
</button>`

function servedOf(desk: Desk): Served | null {
  const { person } = desk.ui
  const actor = person === null ? undefined : desk.board.people[person]
  if (person === null || !actor || actor.isRemoved) return null
  return {
    ...desk,
    person,
    isLead: hasRight(actor, 'lead'),
    isPermitHolder: hasRight(actor, 'permitHolder'),
  }
}

const parts = (desk: Served): ComponentChild => html`<main class="parts" data-testid="desk">
  <div class="left">${openPart(desk)} ${handsPart(desk)}</div>
  <div class="right">
    <nav aria-label=${headWords.parts}>${tabs.map((tab) => tabPress(desk, tab))}</nav>
    ${part(desk)}
  </div>
</main>`

/** The page to draw now. */
export function deskPage(desk: Desk): ComponentChild {
  const served = servedOf(desk)
  return html`<div class="desk">
    ${head(desk, served)} ${alarms(desk)} ${served ? parts(served) : signInPage(desk)}
  </div>`
}
