// A nest on the strip as a shape with words in it, and how wide that is: its marks, its body, and what
// stands behind it. Where it stands is for the parts of the strip; how it is drawn, for the page.

import type { NestId } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { gap, type Sizes, textPx } from './frame.ts'
import { type WidthOf, weight } from './measure.ts'
import { mouthPadding, outlinePadding } from './mouth.ts'
import { stripWords } from './words.ts'

export type Shape =
  /** A mouth: shut, shut and warm, open, open for ten minutes or more. */
  | 'shut'
  | 'warm'
  | 'mouth'
  | 'wide'
  /** A round-ended bar, full or hollow: somebody has it, somebody is asked. */
  | 'bar'
  | 'asked'
  /** Not to be fed: struck and hatched, under the dome that warms it, or without a plan. */
  | 'struck'
  | 'dome'
  | 'noPlan'

export type Mark = 'help' | 'fluids' | 'droppings' | 'short' | 'fedTwice'

export type Part = {
  readonly text: string
  readonly is: 'label' | 'minutes' | 'who'
  /** The nest a label stands for. */
  readonly nest: WallNest | null
}

export type Spec = {
  readonly shape: Shape
  readonly parts: readonly Part[]
  readonly marks: readonly Mark[]
  /** Said behind the shape. */
  readonly after: string | null
  /** Quarantined: in square brackets. */
  readonly isFenced: boolean
  /** Perhaps fed already: the shape is broken. */
  readonly isDoubted: boolean
  /** Somebody is to look, or to stop: the shape stands out. */
  readonly isWanted: boolean
}

export type Token = Spec & {
  readonly key: NestId | string
  readonly markAt: readonly number[]
  readonly bodyLeft: number
  readonly bodyWidth: number
  readonly afterLeft: number
  readonly width: number
}
export type Placed = Token & { readonly left: number }

export type Ruler = { readonly sizes: Sizes; readonly widthOf: WidthOf }

/** Marks stand 60 px high in every lane. */
export const markWidth: Readonly<Record<Mark, number>> = {
  help: 68,
  fluids: 48,
  droppings: 60,
  short: 60,
  fedTwice: 64,
}
const markGap = 12
export const fence = { width: 20, gap: 6 } as const
const afterGap = 14
/** Of the label's size: between words of one shape. */
export const wordGap = { bar: 0.24, mouth: 0.2, pile: 0.32 } as const
/** How far a hold's stroke reaches beyond its box. */
const strike = 14

/** A call's mark: the shape its alert has in the band. */
const callMarks = { help: 'help', fluids: 'fluids', noDroppings: 'droppings' } as const

export const marksOf = (nest: WallNest): readonly Mark[] => [
  ...(nest.call ? [callMarks[nest.call]] : []),
  ...(nest.short > 0 ? (['short'] as const) : []),
  ...(nest.isFedTwice ? (['fedTwice'] as const) : []),
]

export const labelPart = (nest: WallNest): Part => ({
  text: nest.doubt ? `${nest.label}?` : nest.label,
  is: 'label',
  nest,
})
export const minutesPart = (minutes: number): Part => ({
  text: String(minutes),
  is: 'minutes',
  nest: null,
})
export const whoPart = (text: string): Part => ({ text, is: 'who', nest: null })

/** A spec of one nest; its label first, what is said of it by the caller. */
export function specOf(nest: WallNest, shape: Shape, more: Partial<Spec> = {}): Spec {
  return {
    shape,
    parts: [labelPart(nest)],
    marks: marksOf(nest),
    after: null,
    isFenced: nest.isQuarantined,
    isDoubted: nest.doubt !== null,
    isWanted: false,
    ...more,
  }
}

export const isPile = ({ parts }: Pick<Spec, 'parts'>): boolean =>
  parts.filter(({ is }) => is === 'label').length > 1

/** Space between the words of a shape, in pixels. */
export function partGap(spec: Pick<Spec, 'parts' | 'shape'>, { label }: Sizes): number {
  if (isPile(spec)) return wordGap.pile * label
  return (spec.shape === 'bar' || spec.shape === 'asked' ? wordGap.bar : wordGap.mouth) * label
}

function partWidth({ is, text }: Part, { sizes, widthOf }: Ruler): number {
  if (is === 'label') return widthOf(text, { px: sizes.label, weight: weight.label })
  const px = is === 'who' ? sizes.who : sizes.label
  return widthOf(text, { px, weight: weight.text })
}

function paddingOf({ shape, isDoubted }: Spec, { token }: Sizes): number {
  switch (shape) {
    case 'mouth':
    case 'wide':
      return isDoubted ? outlinePadding(token) : mouthPadding(token)
    case 'bar':
    case 'asked':
      return 0.9 * token
    case 'shut':
    case 'warm':
      return 12
    case 'dome':
      return 0.62 * token
    default:
      return 34
  }
}

/** A shut mouth is a shape that says something: never shorter than it can be seen. */
const leastBody = 66

/** The spec with its widths. */
export function tokenOf(spec: Spec, ruler: Ruler): Token {
  const { sizes, widthOf } = ruler
  const words = spec.parts.reduce((sum, part) => sum + partWidth(part, ruler), 0)
  const gaps = partGap(spec, sizes) * (spec.parts.length - 1)
  const bodyWidth = Math.max(leastBody, words + gaps + paddingOf(spec, sizes))
  let left = 0
  const markAt = spec.marks.map((mark) => {
    const at = left
    left += markWidth[mark] + markGap
    return at
  })
  const fenced = spec.isFenced ? fence.width + fence.gap : 0
  const around = fenced + (spec.shape === 'struck' ? strike : 0)
  const bodyLeft = left + around
  const bodyRight = bodyLeft + bodyWidth + around
  const afterLeft = bodyRight + afterGap
  const after = spec.after
  const afterWidth = after ? 2 * afterGap + widthOf(after, { px: textPx, weight: weight.text }) : 0
  return {
    ...spec,
    key: spec.parts.find(({ nest }) => nest)?.nest?.nest ?? '',
    markAt,
    bodyLeft,
    bodyWidth,
    afterLeft,
    width: bodyRight + afterWidth,
  }
}

/** What a row of tokens takes. */
export const tokensWidth = (tokens: readonly Token[]): number =>
  tokens.reduce((sum, { width }) => sum + width, 0) + gap * Math.max(0, tokens.length - 1)

/** "+3" as the strip writes a count. */
export const countOf = (n: number, { widthOf }: Ruler): number =>
  n === 0 ? 0 : widthOf(stripWords.count(n), { px: textPx, weight: weight.text }) + gap
