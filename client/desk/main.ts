// The desk's page: finds its room, pairs itself, opens its outbox and its session, and draws at every
// change and every second. Only here are these put together.

import { signal } from '@preact/signals'
import { h, render } from 'preact'
import type { OutboxStore } from '../session/ports.ts'
import { realBrain } from '../session/realBrain.ts'
import { realTimers } from '../session/realTimers.ts'
import { Session } from '../session/session.ts'
import { SocketLink } from '../session/socketLink.ts'
import { openIndexedDbOutbox } from '../stores/indexedDbOutbox.ts'
import { drawnReports } from '../ui/drawnReports.ts'
import { html } from '../ui/html.ts'
import { keepTrying } from '../ui/keepTrying.ts'
import { reloadIfOutdated } from '../ui/outdated.ts'
import { pairAgainOnce, pairIfNew } from '../ui/pairing.ts'
import { roomOfPage } from '../ui/roomOfPage.ts'
import { sayOf } from '../ui/say.ts'
import { DeskActions } from './actions.ts'
import { JournalBook } from './journalBook.ts'
import { deskPage } from './page.ts'
import { createUi } from './ui.ts'
import { headWords } from './words.ts'

const redrawMs = 1_000
const complain = (what: string, error: unknown) => console.error(what, error)

function sayOnly(root: HTMLElement, words: string): void {
  render(html`<main class="alone"><h1 data-testid="alone">${words}</h1></main>`, root)
}

function show(root: HTMLElement, session: Session, pairAgain: () => void): void {
  const snapshot = signal(session.snapshot())
  const ui = createUi()
  const say = sayOf(() => snapshot.value)
  const actions = new DeskActions(session, ui, say)
  const journal = new JournalBook(session)
  session.subscribe((now) => {
    snapshot.value = now
    const { liveness, signedIn, board, device } = now
    if (liveness.status === 'notLive' && liveness.why === 'notPaired') pairAgain()
    reloadIfOutdated(liveness)
    if (device === null || board === null) return
    document.title = board.room.title
    const { person } = ui.value
    // Signed out elsewhere, or by a restart of the server: then nobody is served here.
    if (person !== null && !signedIn.includes(person)) actions.leave()
  })
  setInterval(() => {
    snapshot.value = session.snapshot()
  }, redrawMs)
  const Page = () => {
    const now = snapshot.value
    const nowMs = now.roomNowMs
    if (now.board === null || nowMs === null) {
      return html`<main class="alone"><h1>${headWords.looking}</h1></main>`
    }
    const { board, waiting } = drawnReports(now, nowMs)
    return deskPage({
      ...{ snapshot: now, board, waiting, names: now.names, nowMs },
      ...{ ui: ui.value, say, actions, journal, change: (part) => actions.change(part) },
    })
  }
  render(h(Page, null), root)
}

async function start(root: HTMLElement): Promise<void> {
  sayOnly(root, headWords.looking)
  const again = (what: string) => (error: unknown) => complain(what, error)
  const room = await keepTrying(() => roomOfPage(location.pathname), again('no answer about rooms'))
  if (room === null) return sayOnly(root, headWords.noRoom)
  const store: OutboxStore = await openIndexedDbOutbox(`broodboard ${room}`)
  const paired = await keepTrying(() => pairIfNew(store, room), again('pairing failed'))
  if (paired === 'refused') return sayOnly(root, headWords.notPaired)
  const session = new Session({
    link: new SocketLink(),
    timers: realTimers,
    chance: Math.random,
    complain,
    brain: realBrain,
    room,
    screen: 'desk',
    store,
  })
  show(root, session, () => void pairAgainOnce(store, room))
  await session.start()
}

const root = document.getElementById('desk')
if (root) {
  start(root).catch((error) => {
    complain('the page could not start', error)
    sayOnly(root, headWords.storeFailing)
  })
}
