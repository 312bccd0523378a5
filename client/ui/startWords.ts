// What a screen that can write says before it has a room, or instead of one.

import type { ScreenKind } from '../../shared/wire/frames.ts'

export const startWords = {
  looking: 'Looking for the room …',
  noRoom: (screen: ScreenKind) =>
    `Which room? Open the page with its name, as in /nursery/${screen}.`,
  notPaired: 'This device could not be paired. Ask whoever keeps the server.',
  storeFailing: 'This device cannot keep records. Write on paper and tell the lead.',
} as const
