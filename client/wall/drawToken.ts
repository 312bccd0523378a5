// One piece of the strip as elements: marks, brackets, the shape, the words in it and behind it. It
// stands where the layout put it; nothing here is measured or moved.

import type { ComponentChild } from 'preact'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { html } from '../ui/html.ts'
import type { Sizes } from './frame.ts'
import { mouthPath, rimOf } from './mouth.ts'
import { handsName, isInHands } from './stripLamp.ts'
import { isPile, type Mark, markWidth, type Part, type Placed, partGap } from './tokens.ts'
import { stripWords } from './words.ts'

export const rem = (px: number): string => `${Math.round(px * 10) / 100}rem`

const triangle = 'M34 5 L63 55 H5Z'
const bang = 'M30 22 h8 l-2 17 h-4z M30.5 43 h7 v7 h-7z'
export const drop = 'M24 2 C31 16 44 25 44 38 A20 20 0 0 1 4 38 C4 25 17 16 24 2Z'
/** A nest that is not whole: its ring stands open. */
const openRing = 'M46 12 A24 24 0 1 0 54 30'
const twoMouths = 'M0 14 Q32 -4 64 14 Q32 32 0 14Z M0 42 Q32 24 64 42 Q32 60 0 42Z'

function markDrawing(mark: Mark): ComponentChild {
  switch (mark) {
    case 'help':
      return html`<path class="triangle" d=${triangle} /><path class="bang" d=${bang} />`
    case 'fluids':
      return html`<path d=${drop} />`
    case 'droppings':
      return html`<circle cx="30" cy="30" r="30" />`
    case 'short':
      return html`<path class="ring" d=${openRing} />`
    default:
      return html`<path d=${twoMouths} />`
  }
}

function markAt(mark: Mark, left: number): ComponentChild {
  const width = markWidth[mark]
  return html`<svg
    class=${`mark ${mark === 'fedTwice' ? 'fed-twice' : mark}`}
    key=${mark}
    data-testid=${`mark-${mark}`}
    viewBox=${`0 0 ${width} 60`}
    style=${{ left: rem(left), width: rem(width) }}
    aria-hidden="true"
  >
    ${markDrawing(mark)}
  </svg>`
}

function openMouth({ shape, bodyWidth, isDoubted }: Placed, { token }: Sizes): ComponentChild {
  const rim = isDoubted ? 5 : rimOf(token)
  return html`<svg
    class="gape"
    viewBox=${`0 0 ${bodyWidth} ${token}`}
    aria-hidden="true"
    key=${shape}
  >
    <path d=${mouthPath(bodyWidth, token, rim)} stroke-width=${rim} />
  </svg>`
}

const shutMouth = html`<svg
  class="lip"
  viewBox="0 0 100 10"
  preserveAspectRatio="none"
  aria-hidden="true"
>
  <path d="M0,5 Q50,-5 100,5 Q50,15 0,5Z" />
</svg>`

/** What a test asks of a nest, on whatever element stands for it. */
const marksOfNest = (nest: WallNest) => ({
  'data-testid': `nest-${nest.label}`,
  'data-state': nest.offer ? 'offered' : nest.state.type,
  'data-doubt': nest.doubt ? 'yes' : null,
})

function words(part: Part, isOne: boolean): ComponentChild {
  if (part.is !== 'label') return html`<span class=${part.is}>${part.text}</span>`
  const asked = isOne || !part.nest ? {} : marksOfNest(part.nest)
  return html`<b class="name" ...${asked}>${part.text}</b>`
}

/** A name the bar has no room for stands in the foot; a reader that is not an eye hears it here too. */
function unseenName({ parts }: Placed): ComponentChild {
  const nest = parts.find((part) => part.nest)?.nest
  if (!nest || !isInHands(nest)) return null
  const name = handsName(nest)
  if (parts.some(({ text }) => text === name)) return null
  return html`<span class="unseen">${name}</span>`
}

const isMouth = ({ shape }: Placed): boolean => shape === 'mouth' || shape === 'wide'

/**
 * Only what waits for its moment slides with time. What is taken in hand, held or warming stands where it
 * is put at once: sliding there it would cross its neighbours.
 */
const drifting: ReadonlySet<string> = new Set(['shut', 'warm', 'mouth', 'wide'])

/** A nest, or several in one mouth, where the layout put it. */
export function drawToken(token: Placed, sizes: Sizes): ComponentChild {
  const { shape, parts, isFenced, isDoubted, isWanted, bodyLeft, bodyWidth } = token
  const isOne = !isPile(token)
  const nest = parts.find((part) => part.nest)?.nest
  const asked = isOne && nest ? marksOfNest(nest) : {}
  const flags = `${isDoubted ? ' doubted' : ''}${isWanted ? ' wanted' : ''}${isOne ? '' : ' pile'}`
  return html`<li
    class=${`nest ${shape === 'noPlan' ? 'no-plan' : shape}${flags}`}
    key=${`${token.key} ${drifting.has(shape) ? 'drifts' : shape}`}
    ...${asked}
    data-token=${shape}
    style=${{ transform: `translateX(${rem(token.left)})`, width: rem(token.width) }}
  >
    ${token.marks.map((mark, at) => markAt(mark, token.markAt[at] ?? 0))}
    ${isFenced ? html`<i class="fence opens" style=${{ left: rem(bodyLeft - 26) }} />` : null}
    <span
      class="body"
      style=${{ left: rem(bodyLeft), width: rem(bodyWidth), gap: rem(partGap(token, sizes)) }}
    >
      ${isMouth(token) ? openMouth(token, sizes) : null}
      ${shape === 'shut' || shape === 'warm' ? shutMouth : null}
      ${parts.map((part) => words(part, isOne))} ${unseenName(token)}
    </span>
    ${isFenced ? html`<i class="fence closes" style=${{ left: rem(bodyLeft + bodyWidth + 6) }} />` : null}
    ${
      token.after === null
        ? null
        : html`<span class="after" style=${{ left: rem(token.afterLeft) }}>${token.after}</span>`
    }
  </li>`
}

/** "+2": counted, not drawn; each of them is still on the page by name, unseen. */
export function drawCount(nests: readonly WallNest[], where: string): ComponentChild {
  if (nests.length === 0) return null
  return html`<span class=${`count ${where}`} key=${where}>
    <span>${stripWords.count(nests.length)}</span>
    ${nests.map((nest) => html`<i hidden key=${nest.nest} ...${marksOfNest(nest)} />`)}
  </span>`
}
