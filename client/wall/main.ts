// The wall's page: watches its room and draws it, anew at every change and every second. It reads only:
// no outbox, no actions, nothing that could send.

import { render } from 'preact'
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
import { roomOfPage } from '../ui/roomOfPage.ts'
import { handWords, houseWords, notLive, wallWords, whyNotLive } from '../ui/words.ts'
import { canvasWidths, type WidthOf } from './measure.ts'
import { wallPage } from './page.ts'

const redrawMs = 1_000
const complain = (what: string, error: unknown) => console.error(what, error)

function sentence(words: string) {
  return html`<div class="page"><p class="empty" data-testid="empty">${words}</p></div>`
}

function draw(root: HTMLElement, snapshot: RoomSnapshot, widthOf: WidthOf): void {
  const { board, names, liveness, house } = snapshot
  const isLost = liveness.status === 'notLive'
  const nowMs = isLost ? liveness.sinceMs : snapshot.roomNowMs
  if (!board || nowMs === null) {
    const why = isLost ? whyNotLive(liveness.why) : ''
    render(sentence(isLost ? `${notLive}. ${why}` : wallWords.connecting), root)
    return
  }
  if (Object.keys(board.incubators).length === 0 && !isLost) {
    render(sentence(wallWords.noIncubators), root)
    return
  }
  const time = (atMs: number) => clockTime(board.room, atMs)
  const wall = {
    view: wallView(board, names, nowMs),
    nowMs,
    time,
    widthOf,
    house: house.map((condition) => houseWords(condition, { time })),
    notLiveSinceMs: isLost ? nowMs : null,
  }
  document.title = board.room.title
  render(wallPage(wall), root)
}

async function start(root: HTMLElement): Promise<void> {
  render(sentence(wallWords.connecting), root)
  const room = await keepTrying(
    () => roomOfPage(location.pathname),
    (error) => complain('the room could not be asked for', error),
  )
  if (room === null) {
    render(sentence(handWords.noRoom), root)
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
  let widthOf = canvasWidths(family)
  const redraw = () => draw(root, watch.snapshot(), widthOf)
  watch.subscribe((snapshot) => {
    reloadIfOutdated(snapshot.liveness)
    redraw()
  })
  setInterval(redraw, redrawMs)
  // Words are wider or narrower once the page's own font is there.
  void document.fonts.ready.then(() => {
    widthOf = canvasWidths(family)
    redraw()
  })
  watch.start()
}

const root = document.getElementById('wall')
if (root) void start(root)
