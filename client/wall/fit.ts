// How much a lane can say: tokens give up words, the least urgent first, until the lane fits; what
// still does not fit is counted at its end, as "+2". Widths are handed in, so this needs no page.

import { clamp } from '../../shared/base/values.ts'
import type { Form, Token, TokenKind } from './tokens.ts'

/** All lengths on the wall are in pixels of a 1920 × 1080 page; the page scales as a whole. */
export const page = { width: 1920, height: 1080 } as const
export const lane = { side: 24, incubator: 116, gap: 14, count: 96 } as const
/** White space inside a token, left and right together. */
export const padding: Readonly<Record<TokenKind, number>> = {
  late: 68,
  veryLate: 68,
  due: 68,
  claimed: 60,
  soon: 24,
  later: 24,
  settling: 40,
  held: 40,
  unplanned: 24,
}
export const chipPadding = 40
export const wordGap = 16

export type Shown = { readonly token: Token; readonly form: Form }
export type Fitted = { readonly shown: readonly Shown[]; readonly rest: number }

/** Who is counted instead of shown first. */
const dropped: readonly TokenKind[] = [
  'later',
  'unplanned',
  'soon',
  'settling',
  'held',
  'due',
  'claimed',
  'late',
  'veryLate',
]

/** Sizes of type by number of lanes: capitals of 47 px need 70 px of this font, up to ten lanes. */
export function sizes(lanes: number): { label: number; detail: number } {
  if (lanes <= 6) return { label: 96, detail: 76 }
  if (lanes <= 10) return { label: 70, detail: 70 }
  const fitting = Math.floor(700 / lanes)
  return { label: clamp(fitting, 24, 70), detail: clamp(fitting, 24, 70) }
}

type Width = (shown: Shown) => number

const total = (shown: readonly Shown[], width: Width): number =>
  shown.reduce((sum, one) => sum + width(one) + lane.gap, 0)

/** The place in its lane of the token with the cheapest words left; -1 where all have said the least. */
function nextToShorten(shown: readonly Shown[]): number {
  let cheapest = -1
  for (const [at, { form }] of shown.entries()) {
    if (form.worth === 0) continue
    // At the same price the right one first: it is due last.
    if (cheapest < 0 || form.worth <= (shown[cheapest]?.form.worth ?? 0)) cheapest = at
  }
  return cheapest
}

/** The token with one word less. */
function shorter({ token, form }: Shown): Shown {
  return { token, form: token.forms[token.forms.indexOf(form) + 1] ?? form }
}

/** The place of the next token to be counted instead of shown: never the first of its lane. */
function nextToDrop(shown: readonly Shown[]): number {
  for (const kind of dropped) {
    const at = shown.findLastIndex(({ token }) => token.kind === kind)
    if (at > 0) return at
  }
  return shown.length - 1
}

/** The tokens of one lane within `widthPx`; `rest` is how many are only counted. */
export function fitLane(tokens: readonly Token[], widthPx: number, width: Width): Fitted {
  let shown: readonly Shown[] = tokens.map((token) => ({ token, form: token.forms[0] }))
  while (total(shown, width) > widthPx) {
    const at = nextToShorten(shown)
    if (at < 0) break
    shown = shown.map((one, place) => (place === at ? shorter(one) : one))
  }
  while (shown.length > 1 && total(shown, width) > room(widthPx, tokens.length - shown.length)) {
    const drop = nextToDrop(shown)
    shown = shown.filter((_, at) => at !== drop)
  }
  return { shown, rest: tokens.length - shown.length }
}

/** A lane that counts what it leaves out needs the place for that count. */
const room = (widthPx: number, left: number): number => (left > 0 ? widthPx - lane.count : widthPx)
