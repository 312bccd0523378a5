// Amounts as somebody types them at a desk: millilitres, grams or pieces in a field, whole microlitres,
// milligrams or pieces on the board. Pure.

import type { Amount } from '../../shared/base/values.ts'

const perUnit: Readonly<Record<Amount['unit'], number>> = { uL: 1_000, mg: 1_000, pieces: 1 }
/** The most the board takes of each; beyond that a finger slipped. */
const mostN: Readonly<Record<Amount['unit'], number>> = {
  uL: 1_000_000,
  mg: 1_000_000,
  pieces: 10_000,
}

export type TypedAmount =
  | { readonly type: 'none' }
  | { readonly type: 'amount'; readonly amount: Amount }
  | { readonly type: 'unreadable' }

/** "0.6" for 600 uL. */
export const typedText = (n: number, unit: Amount['unit']): string => String(n / perUnit[unit])

/** What was typed, with a point or a comma; an empty field is no amount. */
export function typedAmount(text: string, unit: Amount['unit']): TypedAmount {
  const plain = text.trim().replace(',', '.')
  if (plain === '') return { type: 'none' }
  if (!/^\d+(\.\d+)?$/.test(plain)) return { type: 'unreadable' }
  const n = Math.round(Number(plain) * perUnit[unit])
  const isWhole = unit !== 'pieces' || !plain.includes('.')
  return isWhole && n <= mostN[unit]
    ? { type: 'amount', amount: { unit, n } }
    : { type: 'unreadable' }
}
