// The wall's own page on a stage without a server: it draws whatever scene it is handed. Bundled by
// wallOnStage.ts and run inside a browser.

import { render } from 'preact'
import { clockTime } from '../../client/ui/clock.ts'
import { canvasWidths } from '../../client/wall/measure.ts'
import { drawWall } from '../../client/wall/wall.ts'
import type { Scene } from '../views/wallScenes.ts'

const room = { zone: 'Europe/London', civilOffsetMs: 0 }

/** Draws one scene, once the page's font is there. */
export async function draw(scene: Scene): Promise<void> {
  const root = document.getElementById('wall')
  if (!root) throw new Error('the stage has no wall')
  const family = getComputedStyle(document.body).fontFamily
  await Promise.all(
    [520, 620, 660].map((weight) => document.fonts.load(`${weight} 70px ${family}`)),
  )
  const drawing = drawWall({
    ...scene,
    time: (atMs) => clockTime(room, atMs),
    widthOf: canvasWidths(family),
    zone: null,
  })
  document.documentElement.dataset.theme = drawing.theme
  render(drawing.page, root)
}
