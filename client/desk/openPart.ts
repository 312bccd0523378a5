// The desk's first list: whatever is open and waits for somebody, the most urgent first. A thing leaves
// it by being dealt with; a press stands on it only for whoever may do so.

import type { ComponentChild } from 'preact'
import {
  deskOpen,
  type OpenArrival,
  type OpenCall,
  type OpenHold,
} from '../../shared/views/deskOpen.ts'
import type { NoticeShown } from '../../shared/views/noticesView.ts'
import type { ShortNest } from '../../shared/views/shortNests.ts'
import { html } from '../ui/html.ts'
import { noticeLine, whyCalled } from '../ui/openWords.ts'
import { bandWords, capital } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { doubtCard } from './doubtCard.ts'
import { openCard, toNest } from './openCard.ts'
import { resolveForm } from './openForms.ts'
import { askPress, press } from './press.ts'
import { nameOr, openWords } from './words.ts'

const whatOf = (label: string, bird: OpenHold['bird']): string =>
  bird ? `${label}, ${bandWords(bird)}` : label

const signOf = { help: 'triangle', fluids: 'drop', noDroppings: 'disc' } as const

function callPresses(desk: Served, call: OpenCall): ComponentChild {
  const { request, can } = call
  return html`
    ${can.take ? askPress(desk, { id: `take-${request}`, text: openWords.coming, command: { type: 'TakeRequest', v: 1, request } }) : null}
    ${can.putBack ? askPress(desk, { id: `put-back-${request}`, text: openWords.putBack, command: { type: 'DeclineRequest', v: 1, request } }) : null}
    ${can.resolve ? press({ id: `resolve-${request}`, text: openWords.resolve, onPress: () => desk.change({ form: { type: 'resolve', request }, notice: null }) }) : null}
  `
}

function callCard(desk: Served, call: OpenCall): ComponentChild {
  const { place, taken, bird } = call
  const { form } = desk.ui
  const lines = [
    ...(place ? [openWords.incubator(place.incubatorLabel)] : []),
    ...(bird ? [openWords.bird(bandWords(bird))] : []),
    ...(call.why === 'byHand' ? [] : [whyCalled[call.why]]),
    openWords.since(desk.say.time(call.raisedAtMs)),
    ...(call.note ? [openWords.noteSays(call.note)] : []),
    taken
      ? openWords.hasIt(nameOr(taken.name), desk.say.time(taken.atMs))
      : openWords.askedOf(call.askedOf),
  ]
  return openCard({
    id: `call-${call.request}`,
    kind: taken ? 'taken' : 'now',
    mark: signOf[call.kind],
    title: openWords.call(call.kind, place?.label ?? null, nameOr(call.byName)),
    lines,
    link: call.place ? toNest(desk, call.place) : null,
    acts: callPresses(desk, call),
    form:
      form?.type === 'resolve' && form.request === call.request ? resolveForm(desk, call) : null,
  })
}

const shortCard = (desk: Served, short: ShortNest): ComponentChild =>
  openCard({
    id: `short-${short.nest}`,
    kind: 'now',
    mark: 'openRing',
    title: openWords.short(short.missing, short.label),
    lines: [openWords.since(desk.say.time(short.sinceMs)), openWords.watchDoors],
    link: toNest(desk, short),
    acts: html`${press({ id: `found-${short.nest}`, text: openWords.found, onPress: () => void desk.actions.report({ type: 'BirdFound', v: 1, nest: short.nest }) })}`,
  })

const noticeCard = (desk: Served, notice: NoticeShown): ComponentChild =>
  openCard({
    id: `notice-${notice.no}`,
    kind: 'plain',
    mark: 'bar',
    title: openWords.notice(
      desk.say.time(notice.atMs),
      noticeLine[notice.why](notice.nest?.label ?? '', nameOr(notice.name)),
    ),
    lines: [],
    link: notice.nest ? toNest(desk, notice.nest) : null,
    acts: html`${askPress(desk, { id: `read-${notice.no}`, text: openWords.read, command: { type: 'Acknowledge', v: 1, notice: notice.no } })}`,
  })

function holdCard(desk: Served, hold: OpenHold): ComponentChild {
  const { nest, label, bird, standing } = hold
  const time = desk.say.time(hold.lookAgainAtMs)
  const lift = () => {
    desk.change({
      ...{ tab: 'nests', nest, notice: null },
      form: { type: 'lift', nest, bird: bird?.bird ?? null },
    })
  }
  return openCard({
    id: `hold-${nest}-${bird?.bird ?? 'nest'}`,
    kind: 'plain',
    mark: standing === 'overdue' ? 'disc' : 'struckBox',
    title: openWords.hold(capital(whatOf(label, bird))),
    lines: [
      openWords.holdWhy(hold.reason, nameOr(hold.byName)),
      standing === 'quiet' ? openWords.lookAgain(time) : openWords.lookNow(time),
    ],
    link: toNest(desk, hold),
    acts: hold.canLift
      ? press({ id: `lift-${nest}-${bird?.bird ?? 'nest'}`, text: openWords.lift, onPress: lift })
      : null,
  })
}

function arrivalCard(desk: Served, arrival: OpenArrival): ComponentChild {
  const { nest, label, birds, lookDueAtMs, isLookDue } = arrival
  const time = desk.say.time(lookDueAtMs)
  return openCard({
    id: `arrival-${nest}`,
    kind: 'plain',
    mark: 'dome',
    title: openWords.arrival(label, birds.length),
    lines: [isLookDue ? openWords.arrivalLookNow(time) : openWords.arrivalLook(time)],
    link: toNest(desk, arrival),
  })
}

/** What this device noted and the server has not, or would not, take. */
function unsaved(desk: Served): ComponentChild {
  const { count } = desk.waiting
  const { stuck } = desk.snapshot
  return html`
    ${count === 0 ? null : html`<p class="waits" data-testid="waiting">${openWords.waits(count)}</p>`}
    ${stuck.map((one) =>
      openCard({
        id: `stuck-${one.id}`,
        kind: 'plain',
        mark: 'disc',
        title: openWords.stuck,
        lines: [],
        acts: html`${press({ id: `again-${one.id}`, text: openWords.again, isOff: one.number === 'owed', onPress: () => desk.actions.sendAgain(one.id) })}
        ${press({ id: `drop-${one.id}`, text: openWords.drop, onPress: () => desk.actions.drop(one.id) })}`,
      }),
    )}
  `
}

export function openPart(desk: Served): ComponentChild {
  const { board, names, person, nowMs } = desk
  const open = deskOpen({ board, names, person, nowMs })
  const due = (hold: OpenHold) => hold.standing !== 'quiet'
  const cards = [
    ...open.calls.map((call) => callCard(desk, call)),
    ...open.shorts.map((short) => shortCard(desk, short)),
    ...open.notices.map((notice) => noticeCard(desk, notice)),
    ...open.doubts.map((doubt) => doubtCard(desk, doubt)),
    ...open.holds.filter(due).map((hold) => holdCard(desk, hold)),
    ...open.arrivals.map((arrival) => arrivalCard(desk, arrival)),
    ...open.holds.filter((hold) => !due(hold)).map((hold) => holdCard(desk, hold)),
  ]
  return html`<section aria-labelledby="open-title" data-testid="open">
    <h2 id="open-title">${openWords.title} <small>${openWords.count(cards.length)}</small></h2>
    ${unsaved(desk)}
    ${cards.length === 0 ? html`<p class="soft">${openWords.nothing}</p>` : html`<ul class="open">${cards}</ul>`}
  </section>`
}
