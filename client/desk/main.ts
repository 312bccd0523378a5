// The desk's page: draws its session's room at every change and every second. How it comes to a session
// is writingScreen.ts's.

import { signal } from '@preact/signals'
import { h, render } from 'preact'
import type { Session } from '../session/session.ts'
import { drawnReports } from '../ui/drawnReports.ts'
import { html } from '../ui/html.ts'
import { sayOf } from '../ui/say.ts'
import { startWords } from '../ui/startWords.ts'
import { startWritingScreen } from '../ui/writingScreen.ts'
import { DeskActions } from './actions.ts'
import { JournalBook } from './journalBook.ts'
import { deskPage } from './page.ts'
import { createUi } from './ui.ts'

const redrawMs = 1_000
const complain = (what: string, error: unknown) => console.error(what, error)

function sayOnly(root: HTMLElement, words: string): void {
  render(html`<main class="alone"><h1 data-testid="alone">${words}</h1></main>`, root)
}

function show(root: HTMLElement, session: Session): void {
  const snapshot = signal(session.snapshot())
  const ui = createUi()
  const say = sayOf(() => snapshot.value)
  const actions = new DeskActions(session, ui, say)
  const journal = new JournalBook(session)
  session.subscribe((now) => {
    snapshot.value = now
    const { signedIn, board, device } = now
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
      return html`<main class="alone"><h1>${startWords.looking}</h1></main>`
    }
    const { board, waiting } = drawnReports(now, nowMs)
    return deskPage({
      ...{ snapshot: now, board, waiting, names: now.names, nowMs },
      ...{ ui: ui.value, say, actions, journal, change: (part) => actions.change(part) },
    })
  }
  render(h(Page, null), root)
}

const root = document.getElementById('desk')
if (root) {
  startWritingScreen({
    screen: 'desk',
    complain,
    sayOnly: (words) => sayOnly(root, words),
    show: (session) => show(root, session),
  })
}
