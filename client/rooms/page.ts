// The list of rooms: one row a room, with a link to each screen of it, or to the one that was asked for
// without naming a room. A room that is not served says why, and has no links.

import type { ComponentChild } from 'preact'
import type { ScreenKind } from '../../shared/wire/frames.ts'
import { html } from '../ui/html.ts'
import { roomsWords, screenNames } from './words.ts'

/** As the server lists it; `why` stands on a room that is not served. */
export type ListedRoom = { readonly id: string; readonly title: string; readonly why?: string }

const screens: readonly ScreenKind[] = ['wall', 'hand', 'desk']

/** The screens to choose from: the one in the address, as in /wall, or all of them. */
export const screensOf = (path: string): readonly ScreenKind[] => {
  const asked = screens.filter((screen) => path === `/${screen}`)
  return asked.length > 0 ? asked : screens
}

const row = ({ id, title, why }: ListedRoom, asked: readonly ScreenKind[]): ComponentChild =>
  html`<li class="room" data-testid=${`room-${id}`}>
    <h2>${title}</h2>
    ${
      why === undefined
        ? html`<nav aria-label=${title}>
            ${asked.map((screen) => html`<a href=${`/${id}/${screen}`}>${screenNames[screen]}</a>`)}
          </nav>`
        : html`<p class="why">${roomsWords.notServed} ${why}</p>`
    }
  </li>`

export const roomsPage = (
  rooms: readonly ListedRoom[],
  asked: readonly ScreenKind[],
): ComponentChild =>
  html`<h1>${rooms.length === 0 ? roomsWords.none : roomsWords.which}</h1>
    <ul>
      ${rooms.map((room) => row(room, asked))}
    </ul>`
