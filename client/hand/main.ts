// The handheld's page: draws its session's room at every change and every second. How it comes to a session
// is writingScreen.ts's.

import { signal } from '@preact/signals'
import { h, render } from 'preact'
import { Attention } from '../attention/attention.ts'
import { openBrowserAttention } from '../attention/browserAttention.ts'
import { keepPlace, readPlace } from '../attention/place.ts'
import type { Session } from '../session/session.ts'
import { html } from '../ui/html.ts'
import { sayOf } from '../ui/say.ts'
import { startWords } from '../ui/startWords.ts'
import { startWritingScreen } from '../ui/writingScreen.ts'
import { createActions } from './actions.ts'
import { app } from './app.ts'
import { Attending } from './attending.ts'
import { handOf } from './drawing.ts'
import { keepDrafts, type RoomLife, readDrafts } from './keptDrafts.ts'
import { createUi } from './ui.ts'

const redrawMs = 1_000
const complain = (what: string, error: unknown) => console.error(what, error)

function sayOnly(root: HTMLElement, words: string): void {
  render(html`<div class="screen"><p class="alone" data-testid="alone">${words}</p></div>`, root)
}

function show(root: HTMLElement, session: Session): void {
  const snapshot = signal(session.snapshot())
  const ui = createUi(readPlace(localStorage))
  const attending = new Attending(new Attention(openBrowserAttention(complain)))
  const attend = () => {
    const { place } = ui.value
    attending.see({ snapshot: snapshot.value, place, monoNowMs: session.monoNowMs() })
  }
  const say = sayOf(() => snapshot.value)
  const actions = createActions(session, ui, say)
  let isFirst = true
  let life: RoomLife | null = null
  session.subscribe((now) => {
    snapshot.value = now
    attend()
    const { signedIn, device } = now
    if (device === null || now.board === null) return
    if (isFirst) {
      const { id: room, season } = now.board.room
      life = { room, season, epoch: now.epoch }
      ui.value = { ...ui.value, drafts: readDrafts(sessionStorage, life) }
    }
    const { person } = ui.value
    // Signed out elsewhere, or by a restart of the server: then nobody is served here.
    if (person !== null && !signedIn.includes(person)) ui.value = { ...ui.value, person: null }
    const [only, ...others] = signedIn
    if (isFirst && only !== undefined && others.length === 0) actions.sign.serve(only)
    isFirst = false
  })
  let { page: drawn, place: kept, drafts: tapped } = ui.value
  ui.subscribe(({ page, place, drafts }) => {
    // Every page begins at its top, wherever the last one was scrolled to.
    if (page !== drawn) window.scrollTo(0, 0)
    if (place !== kept) keepPlace(localStorage, place)
    if (life && drafts !== tapped) keepDrafts(sessionStorage, life, drafts)
    drawn = page
    kept = place
    tapped = drafts
  })
  setInterval(() => {
    snapshot.value = session.snapshot()
    attend()
  }, redrawMs)
  const Page = () => {
    const nowMs = snapshot.value.roomNowMs
    if (snapshot.value.board === null || nowMs === null) {
      return html`<div class="screen"><p class="alone">${startWords.looking}</p></div>`
    }
    return app(handOf({ snapshot: snapshot.value, nowMs, ui, say, actions }))
  }
  render(h(Page, null), root)
}

const root = document.getElementById('hand')
if (root) {
  startWritingScreen({
    screen: 'hand',
    complain,
    sayOnly: (words) => sayOnly(root, words),
    show: (session) => show(root, session),
  })
}
