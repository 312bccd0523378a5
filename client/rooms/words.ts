// Every sentence of the list of rooms.

import type { ScreenKind } from '../../shared/wire/frames.ts'

export const screenNames: Readonly<Record<ScreenKind, string>> = {
  wall: 'Wall',
  hand: 'Handheld',
  desk: 'Desk',
}

export const roomsWords = {
  looking: 'Looking for the rooms …',
  which: 'Which room?',
  none: 'This house has no room.',
  notServed: 'This room is not served.',
}
