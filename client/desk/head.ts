// The desk's head: which room, whether it is live, who leads, how the room keeps up, the clock, and who
// sits here. Below it whatever the whole house must be told.

import type { ComponentChild } from 'preact'
import { deskHands } from '../../shared/views/deskHands.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { html } from '../ui/html.ts'
import { paceWords } from '../ui/paceWords.ts'
import { whyNotLive } from '../ui/refusalWords.ts'
import { startWords } from '../ui/startWords.ts'
import { houseWords, notLiveSince } from '../ui/words.ts'
import type { Desk, Served } from './desk.ts'
import { askPress, press } from './press.ts'
import { headWords, nameOr } from './words.ts'

function liveness({ snapshot, say }: Desk): {
  kind: 'live' | 'connecting' | 'lost'
  words: string
} {
  const { liveness: now } = snapshot
  if (now.status === 'live') return { kind: 'live', words: headWords.live }
  if (now.status === 'connecting' || now.sinceMs === null) {
    return { kind: 'connecting', words: headWords.connecting }
  }
  return { kind: 'lost', words: notLiveSince(say.time(now.sinceMs)) }
}

function roomLine({ board, names, nowMs, say }: Desk): string {
  const leads = headWords.leads(deskHands(board, names, nowMs).leads.map(nameOr))
  const pace = paceWords(wallView(board, names, nowMs).pace, say.time)
  return `${leads}. ${pace}`
}

function atTheDesk(desk: Served): ComponentChild {
  const isOff = desk.board.people[desk.person]?.shift === 'off'
  const shift = isOff
    ? askPress(desk, {
        id: 'begin-shift',
        text: headWords.beginShift,
        command: { type: 'BeginShift', v: 1 },
      })
    : askPress(desk, {
        id: 'end-shift',
        text: headWords.endShift,
        command: { type: 'EndShift', v: 1 },
      })
  return html`<p class="me">
    <b data-testid="me">${desk.say.person(desk.person)}</b>
    ${shift}
    ${press({ id: 'sign-out', text: headWords.signOut, onPress: () => void desk.actions.signOut() })}
  </p>`
}

/** `served` is null while nobody has signed in. */
export function head(desk: Desk, served: Served | null): ComponentChild {
  const { kind, words } = liveness(desk)
  return html`<header class=${`head ${kind}`}>
    <h1>${desk.board.room.title}</h1>
    <p class="line" data-testid="room-line">${roomLine(desk)}</p>
    <p class="live" data-testid="live" data-live=${kind}>${words}</p>
    ${served ? atTheDesk(served) : null}
    <time data-testid="clock">${desk.say.time(desk.nowMs)}</time>
  </header>`
}

/** What is wrong with the house, the link or this device; and a refusal no form has room for. */
export function alarms(desk: Desk): ComponentChild {
  const { snapshot, say, ui } = desk
  const { liveness: now } = snapshot
  const lost = now.status === 'notLive' ? whyNotLive(now.why) : ''
  const all = [
    ...(snapshot.isStoreFailing ? [startWords.storeFailing] : []),
    ...(lost === '' ? [] : [lost]),
    ...snapshot.house.map((condition) => houseWords(condition, say)),
  ]
  const isInForm = ui.form !== null || (ui.person === null && ui.signingIn !== null)
  return html`
    ${all.map((words) => html`<p class="alarm" role="alert" data-testid="house">${words}</p>`)}
    ${ui.notice === null || isInForm ? null : html`<p class="notice" role="alert" data-testid="notice">${ui.notice}</p>`}
  `
}
