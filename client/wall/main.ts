// The wall's page: watches its room and draws it, anew at every change and every second. It reads only:
// no outbox, no actions, nothing that could send.

import { render } from 'preact'
import { secondMs } from '../../shared/base/values.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { realBrain } from '../session/realBrain.ts'
import { realTimers } from '../session/realTimers.ts'
import type { RoomSnapshot } from '../session/roomSnapshot.ts'
import { RoomWatch } from '../session/roomWatch.ts'
import { SocketLink } from '../session/socketLink.ts'
import { clockTime } from '../ui/clock.ts'
import { html } from '../ui/html.ts'
import { keepTrying } from '../ui/keepTrying.ts'
import { reloadIfOutdated } from '../ui/outdated.ts'
import { whyNotLive } from '../ui/refusalWords.ts'
import { roomOfPage } from '../ui/roomOfPage.ts'
import { startWords } from '../ui/startWords.ts'
import { notLive } from '../ui/words.ts'
import { pageMs } from './band.ts'
import type { LateZone } from './lateZone.ts'
import { canvasWidths, type WidthOf } from './measure.ts'
import { drawWall } from './wall.ts'
import { plainWords } from './words.ts'

const redrawMs = secondMs
/** Where the reader asked for less motion the strip steps instead of drifting. */
const stepMs = 15 * secondMs
const complain = (what: string, error: unknown) => console.error(what, error)

/** What one drawing leaves for the next. */
type Memory = { zone: LateZone | null; widthOf: WidthOf }

const sentence = (words: string) =>
  html`<div class="page"><p class="empty" data-testid="empty">${words}</p></div>`

/** Why there is nothing to draw yet; null when there is. */
function nothingYet({ board, liveness }: RoomSnapshot): string | null {
  const isLost = liveness.status === 'notLive'
  if (!board) return isLost ? `${notLive}. ${whyNotLive(liveness.why)}` : plainWords.connecting
  return Object.keys(board.incubators).length === 0 && !isLost ? plainWords.noIncubators : null
}

function draw(root: HTMLElement, snapshot: RoomSnapshot, memory: Memory): void {
  const { board, names, liveness, house } = snapshot
  const isLost = liveness.status === 'notLive'
  const heardMs = isLost ? liveness.sinceMs : snapshot.roomNowMs
  const nothing = nothingYet(snapshot)
  if (!board || heardMs === null || nothing !== null) {
    render(sentence(nothing ?? plainWords.connecting), root)
    return
  }
  const stepsOnly = !isLost && matchMedia('(prefers-reduced-motion: reduce)').matches
  const nowMs = stepsOnly ? heardMs - (heardMs % stepMs) : heardMs
  const drawing = drawWall({
    view: wallView(board, names, nowMs),
    house,
    nowMs,
    isLost,
    time: (atMs) => clockTime(board.room, atMs),
    widthOf: memory.widthOf,
    turn: Math.floor(performance.now() / pageMs),
    zone: memory.zone,
  })
  memory.zone = drawing.zone
  document.title = board.room.title
  document.documentElement.dataset.theme = drawing.theme
  render(drawing.page, root)
}

async function start(root: HTMLElement): Promise<void> {
  render(sentence(plainWords.connecting), root)
  const room = await keepTrying(
    () => roomOfPage(location.pathname),
    (error) => complain('the room could not be asked for', error),
  )
  if (room === null) {
    render(sentence(startWords.noRoom('wall')), root)
    return
  }
  const watch = new RoomWatch({
    link: new SocketLink(),
    timers: realTimers,
    chance: Math.random,
    complain,
    brain: realBrain,
    room,
    screen: 'wall',
  })
  const family = getComputedStyle(document.body).fontFamily
  const memory: Memory = { zone: null, widthOf: canvasWidths(family) }
  const redraw = () => draw(root, watch.snapshot(), memory)
  watch.subscribe((snapshot) => {
    reloadIfOutdated(snapshot.liveness)
    redraw()
  })
  setInterval(redraw, redrawMs)
  // Words are wider or narrower once the page's own font is there.
  void document.fonts.ready.then(() => {
    memory.widthOf = canvasWidths(family)
    redraw()
  })
  watch.start()
}

const root = document.getElementById('wall')
if (root) void start(root)
