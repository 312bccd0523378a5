// The pad: a PIN once a shift, or at the first sign-in the one-time code and a PIN of one's own, twice.
// Figures are not shown; their number is.

import type { ComponentChild } from 'preact'
import type { PersonId } from '../../../shared/base/values.ts'
import { nameOf } from '../../../shared/views/names.ts'
import { html } from '../../ui/html.ts'
import { primary, second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Hand } from '../hand.ts'
import { enterable, entered } from '../pad.ts'
import { handWords } from '../words.ts'

const figures = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const
const digitsMax = 10

export type PinPage = { readonly person: PersonId; readonly how: 'pin' | 'code' }

function typed(hand: Hand, figure: string): void {
  hand.change((state) => {
    const { digits } = state.pad
    if (digits.length >= digitsMax) return state
    return { ...state, notice: null, pad: { ...state.pad, digits: digits + figure } }
  })
}

const erased = (hand: Hand): void =>
  hand.change((state) => ({
    ...state,
    pad: { ...state.pad, digits: state.pad.digits.slice(0, -1) },
  }))

function enter(hand: Hand, page: PinPage): void {
  const next = entered(hand.ui.pad, page.how)
  const { sign } = hand.actions
  switch (next.type) {
    case 'signIn':
      void sign.signIn(page.person, next.pin)
      break
    case 'redeem':
      void sign.redeem(page.person, { code: next.code, pin: next.pin })
      break
    case 'goOn':
      hand.change((state) => ({ ...state, pad: next.pad }))
      break
    case 'differ':
      hand.change((state) => ({
        ...state,
        pad: next.pad,
        notice: { tone: 'refused', text: handWords.pinsDiffer },
      }))
      break
  }
}

function title(hand: Hand, page: PinPage): string {
  const name = nameOf(hand.board, hand.names, page.person) ?? formerHelper
  const { code, pin } = hand.ui.pad
  if (page.how === 'pin') return handWords.pinOf(name)
  if (code === null) return handWords.codeOf(name)
  return pin === null ? handWords.newPin : handWords.newPinAgain
}

/** A notice takes the place of title and dots: with all three the last row of keys would be out of sight. */
function heading(hand: Hand, page: PinPage): ComponentChild {
  const words = title(hand, page)
  if (hand.ui.notice) return html`<h1 class="unseen">${words}</h1>`
  return html`<h1>${words}</h1>
    <p class="dots" data-testid="dots">${'●'.repeat(hand.ui.pad.digits.length)}</p>`
}

export function pinPage(hand: Hand, page: PinPage): ComponentChild {
  const key = (figure: string) =>
    second({ id: `key-${figure}`, text: figure, onPress: () => typed(hand, figure) })
  const other = page.how === 'pin' ? 'code' : 'pin'
  return frame(hand, {
    id: 'pin',
    body: html`${heading(hand, page)}
      <div class="keys">
        ${figures.map(key)}
        ${second({ id: 'key-erase', text: handWords.erase, onPress: () => erased(hand) })}
        ${key('0')}
        ${second({
          id: 'use-other',
          text: other === 'code' ? handWords.useCode : handWords.usePin,
          onPress: () => hand.go({ type: 'pin', person: page.person, how: other }),
        })}
      </div>`,
    dock: html`<div class="pair wide-left">
      ${primary({
        id: 'enter',
        text: hand.ui.isAsking ? handWords.asking : handWords.enter,
        isOff: hand.ui.isAsking || !enterable(hand.ui.pad, page.how),
        onPress: () => enter(hand, page),
      })}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'people' }) })}
    </div>`,
  })
}
