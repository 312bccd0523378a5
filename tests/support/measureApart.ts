// Whether two drawn things stay apart without colour and for eyes that lack one cone: both are laid over
// each other at one size, and where they differ is counted. Outline counts as much as fill.

import { difference, type Eyes, eyes, labOf, seenBy } from './measureColour.ts'
import type { Box } from './measureInPage.ts'
import { type Picture, pixelAt, type Rgb } from './measurePng.ts'

/** Points across and down at which two things are compared. */
const grid = 48
/** A difference in L*a*b* seen without looking for it; 2.3 is the least that can be seen at all. */
const plainDifference = 15
/** Of the area: a corner that is round or not is more than this. */
const apartShareMin = 0.06

function pointOf(picture: Picture, box: Box, [column, row]: readonly [number, number]): Rgb {
  const x = Math.floor(box.x + ((column + 0.5) / grid) * box.width)
  const y = Math.floor(box.y + ((row + 0.5) / grid) * box.height)
  return pixelAt(picture, x, y)
}

/** The share of the area in which these eyes see a plain difference, 0 to 1. */
export function shareApart(picture: Picture, [one, other]: readonly [Box, Box], who: Eyes): number {
  let differing = 0
  for (let row = 0; row < grid; row += 1) {
    for (let column = 0; column < grid; column += 1) {
      const [a, b] = [one, other].map((box) =>
        labOf(seenBy(who, pointOf(picture, box, [column, row]))),
      )
      if (a && b && difference(a, b) >= plainDifference) differing += 1
    }
  }
  return differing / (grid * grid)
}

/** The eyes for which these two are the same; none when they stay apart for everybody. */
export const sameFor = (picture: Picture, pair: readonly [Box, Box]): readonly Eyes[] =>
  eyes.filter((who) => shareApart(picture, pair, who) < apartShareMin)
