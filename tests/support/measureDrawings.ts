// Draws our shapes on an empty page, each in a place with its name, so that they can be measured alone.
// Runs in the browser (measureBundle.ts brings it there).

import { type ComponentChild, render } from 'preact'
import { cropDrawing } from '../../client/ui/cropDrawing.ts'
import { type CropGroup, cropFills } from '../../client/ui/cropWords.ts'
import { html } from '../../client/ui/html.ts'
import { bandMark } from '../../client/ui/shapes.ts'

type Named = { readonly name: string; readonly shape: ComponentChild }

function draw(shapes: readonly Named[], px: number): void {
  const style = { display: 'inline-grid', width: `${px}px`, margin: '10px' }
  render(
    html`${shapes.map(({ name, shape }) => html`<span key=${name} data-name=${name} style=${style}>${shape}</span>`)}`,
    document.body,
  )
}

/** `none` is a bird without a band. */
export const drawBands = (bands: readonly string[], px: number): void =>
  draw(
    bands.map((name) => ({ name, shape: bandMark(name === 'none' ? null : name) })),
    px,
  )

export const drawCrops = (group: CropGroup, px: number): void =>
  draw(
    cropFills.map((fill) => ({ name: fill, shape: cropDrawing(group, fill) })),
    px,
  )
