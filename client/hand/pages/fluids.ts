// Fluids that were given, first what and how: for people signed off for them, at an arrival or a call.
// What can go wrong stands on the page; no volume does, since none comes without a protocol.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import { fluidRoutes } from '../../../shared/board/constants.ts'
import { fluids as fluidsCaution, whoDecides } from '../../../shared/care/cautions.ts'
import { fluidCautions } from '../../../shared/care/fluidCautions.ts'
import { type NestBird, type NestView, nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { bandMark } from '../../ui/shapes.ts'
import { bandWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import type { FluidsDraft } from '../ui.ts'
import { fluidNames, fluidSites, visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

const warmths = ['warmed', 'notWarmed'] as const

const set = (hand: Served, part: Partial<FluidsDraft>) =>
  hand.change((state) => ({ ...state, fluids: { ...state.fluids, ...part } }))

/** Everything but the amount is said; where under the skin is asked only there. */
export const isWhatSaid = ({ fluid, route, warmth, site }: FluidsDraft): boolean =>
  fluid !== null && route !== null && warmth !== null && (route !== 'underSkin' || site !== null)

function whatPresses(hand: Served): ComponentChild {
  const { fluid, route, warmth } = hand.ui.fluids
  return html`
    <h2>${visitWords.which}</h2>
    <div class="choices">
      ${fluidNames.map((name) => choice({ id: `fluid-${name}`, text: name, isOn: fluid === name, onPress: () => set(hand, { fluid: name }) }))}
    </div>
    <h2>${visitWords.how}</h2>
    <div class="choices three">
      ${fluidRoutes.map((one) => choice({ id: `route-${one}`, text: visitWords.routes[one], isOn: route === one, onPress: () => set(hand, { route: one }) }))}
    </div>
    ${route === 'underSkin' ? sitePresses(hand) : null}
    <div class="choices">
      ${warmths.map((one) => choice({ id: one, text: visitWords[one], isOn: warmth === one, onPress: () => set(hand, { warmth: one }) }))}
    </div>
  `
}

function sitePresses(hand: Served): ComponentChild {
  const { site } = hand.ui.fluids
  return html`<h2>${visitWords.site}</h2>
    <div class="choices">
      ${fluidSites.map((one) => choice({ id: `site-${one}`, text: one, isOn: site === one, onPress: () => set(hand, { site: one }) }))}
    </div>`
}

/** A tube goes in by the mouth: what holds there holds for both. */
function harms(route: FluidsDraft['route']): ComponentChild {
  const way = route === 'tube' ? 'byMouth' : route
  const told = fluidCautions.filter((one) => one.route === undefined || one.route === way)
  return html`<div class="harms" data-testid="harms">
    <p class="strong">${fluidsCaution.text} ${visitWords.noVolume}</p>
    ${told.map((one) => html`<p class="caution" key=${one.text}>${one.text} <small>${one.source}</small></p>`)}
    <p class="caution">${whoDecides.text}</p>
  </div>`
}

function whichBird(hand: Served, view: NestView): ComponentChild {
  const { nest, label } = view.summary
  const press = (row: NestBird) =>
    second({
      id: `fluids-${row.bird}`,
      text: bandWords(row),
      ...(row.fluidsAtMs === null
        ? {}
        : { small: visitWords.fluidsAt(hand.say.time(row.fluidsAtMs)) }),
      onPress: () => hand.go({ type: 'fluids', nest, bird: row.bird }),
    })
  return html`<h1>${visitWords.fluidsWhich(label)}</h1>
    <div class="choices">${view.birds.map(press)}</div>`
}

export function fluidsPage(
  hand: Served,
  of: { readonly nest: NestId; readonly bird: BirdId | null },
): ComponentChild {
  const { person, nowMs } = hand
  const view = nestView(hand.board, hand.names, { nest: of.nest, person, nowMs })
  if (!view) return null
  const only = view.birds.length === 1 ? view.birds[0] : undefined
  const row = view.birds.find(({ bird }) => bird === of.bird) ?? only
  const back = second({
    id: 'back',
    text: handWords.back,
    onPress: () => hand.go({ type: 'nest', nest: of.nest }),
  })
  if (!row) return frame(hand, { id: 'fluids', body: whichBird(hand, view), dock: back })
  const isSaid = isWhatSaid(hand.ui.fluids)
  return frame(hand, {
    id: 'fluids',
    body: html`
      <h1 class="with-band">${bandMark(row.band)} ${visitWords.fluidsTitle(bandWords(row), view.summary.label)}</h1>
      ${harms(hand.ui.fluids.route)} ${whatPresses(hand)}
    `,
    dock: html`
      ${primary({ id: 'how-much', text: visitWords.howMuch, ...(isSaid ? {} : { small: visitWords.chooseFirst }), isOff: !isSaid, onPress: () => hand.go({ type: 'fluidsAmount', nest: of.nest, bird: row.bird }) })}
      ${back}
    `,
  })
}
