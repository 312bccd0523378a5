// What the figures on the pad mean so far. Pure: the page asks whether they can be entered, and what
// then happens.

import { emptyPad, type PinPad } from './ui.ts'

const pinLength = { least: 4, most: 8 } as const
const codeLength = { least: 6, most: 10 } as const

export type Entered =
  | { readonly type: 'signIn'; readonly pin: string }
  | { readonly type: 'goOn'; readonly pad: PinPad }
  | { readonly type: 'redeem'; readonly code: string; readonly pin: string }
  /** The PIN was not the same twice; it is chosen anew, the code stands. */
  | { readonly type: 'differ'; readonly pad: PinPad }

/** Whether the figures are as many as a PIN, or a code, can have. */
export function enterable(pad: PinPad, how: 'pin' | 'code'): boolean {
  const length = how === 'code' && pad.code === null ? codeLength : pinLength
  return pad.digits.length >= length.least && pad.digits.length <= length.most
}

/** The step that Enter takes; asked only when the figures can be entered. */
export function entered(pad: PinPad, how: 'pin' | 'code'): Entered {
  const { digits, code, pin } = pad
  if (how === 'pin') return { type: 'signIn', pin: digits }
  if (code === null) return { type: 'goOn', pad: { ...emptyPad, code: digits } }
  if (pin === null) return { type: 'goOn', pad: { ...emptyPad, code, pin: digits } }
  if (pin !== digits) return { type: 'differ', pad: { ...emptyPad, code } }
  return { type: 'redeem', code, pin }
}
