// How much fluid was given, typed on a pad that begins empty: what was given is recorded, and nothing
// is suggested.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { primary, second } from '../../ui/press.ts'
import { bandMark } from '../../ui/shapes.ts'
import { bandWords } from '../../ui/words.ts'
import { microlitres, withKey, withoutLast } from '../figures.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'
import { isWhatSaid } from './fluids.ts'

const keys = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'] as const

function pad(hand: Served): ComponentChild {
  const change = (figures: string) =>
    hand.change((state) => ({ ...state, fluids: { ...state.fluids, figures } }))
  const { figures } = hand.ui.fluids
  return html`<div class="keys figures">
    ${keys.map((key) => second({ id: key === '.' ? 'key-point' : `key-${key}`, text: key, onPress: () => change(withKey(figures, key)) }))}
    ${second({ id: 'erase', text: '⌫', onPress: () => change(withoutLast(figures)) })}
  </div>`
}

function save(hand: Served, nest: NestId, bird: BirdId): void {
  const { fluid, route, warmth, site, figures } = hand.ui.fluids
  const n = microlitres(figures)
  if (fluid === null || route === null || n === null) return
  void hand.actions.brood.fluidsGiven(nest, {
    bird,
    fluid,
    route,
    given: { unit: 'uL', n },
    isWarmed: warmth === 'warmed',
    ...(route === 'underSkin' && site !== null ? { site } : {}),
  })
}

/** "isotonic, under the skin, warmed": what the record will say beside the amount. */
function whatWords({ fluid, route, warmth, site }: Served['ui']['fluids']): string {
  const where = route === 'underSkin' ? site : null
  const how = route === null ? null : visitWords.routes[route]
  const warm = warmth === null ? null : visitWords[warmth].toLowerCase()
  return [fluid, how, where, warm].filter((part) => part !== null).join(', ')
}

export function fluidsAmountPage(
  hand: Served,
  { nest, bird }: { readonly nest: NestId; readonly bird: BirdId },
): ComponentChild {
  const { person, nowMs } = hand
  const { fluids } = hand.ui
  const view = nestView(hand.board, hand.names, { nest, person, nowMs })
  const row = view?.birds.find((one) => one.bird === bird)
  if (!view || !row || !isWhatSaid(fluids)) return null
  const isTyped = microlitres(fluids.figures) !== null
  return frame(hand, {
    id: 'fluids-amount',
    body: html`
      <h1 class="with-band">${bandMark(row.band)} ${visitWords.fluidsTitle(bandWords(row), view.summary.label)}</h1>
      <output class="typed" data-testid="typed">${visitWords.ml(fluids.figures)}</output>
      ${pad(hand)}
    `,
    dock: html`
      ${primary({ id: 'gave', text: isTyped ? visitWords.gave(fluids.figures) : visitWords.howMuch, small: whatWords(fluids), isOff: !isTyped, onPress: () => save(hand, nest, bird) })}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'fluids', nest, bird }) })}
    `,
  })
}
