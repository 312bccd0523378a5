// What the room works with: its incubators, its hours, how a visit begins; and a brood whose plan is
// known comes onto the board here.

import type { ComponentChild } from 'preact'
import { labelMax } from '../../shared/board/constants.ts'
import type { Incubator } from '../../shared/board/state.ts'
import { byLabel } from '../../shared/views/nestOrder.ts'
import { html } from '../ui/html.ts'
import { admitForm } from './admitForm.ts'
import type { Served } from './desk.ts'
import { form, textField, textOf } from './form.ts'
import { roomWords } from './officeWords.ts'
import { clockTimesText } from './planInput.ts'
import { askPress, press } from './press.ts'

const allDayMinutes = 24 * 60

function hoursWords({ board }: Served): string {
  const { opensMinute, closesMinute } = board.room
  if (closesMinute - opensMinute >= allDayMinutes) return roomWords.allDay
  return roomWords.hours(clockTimesText([opensMinute]), clockTimesText([closesMinute]))
}

function readingWords(desk: Served, { reading }: Incubator): string {
  if (!reading) return roomWords.noReading
  const humidity = reading.humidityPercent === null ? null : String(reading.humidityPercent)
  return roomWords.reading(
    (reading.tempDeciC / 10).toFixed(1),
    humidity,
    desk.say.time(reading.atMs),
  )
}

function incubators(desk: Served): ComponentChild {
  const { board, ui } = desk
  const nests = Object.values(board.nests)
  const adds = ui.form?.type === 'addIncubator'
  return html`<section aria-labelledby="incubators-title">
    <div class="title">
      <h2 id="incubators-title">${roomWords.incubators}</h2>
      ${desk.isLead && !adds ? press({ id: 'add-incubator', text: roomWords.addIncubator, onPress: () => desk.change({ form: { type: 'addIncubator' }, notice: null }) }) : null}
    </div>
    ${adds ? incubatorForm(desk) : null}
    <ul class="incubators">
      ${[...Object.values(board.incubators)].sort(byLabel).map(
        (one) => html`<li key=${one.id} data-testid=${`incubator-${one.label}`}>
          <span class="box">${one.label}</span>
          <span>${roomWords.nests(nests.filter(({ incubator }) => incubator === one.id).length)}</span>
          <span class="soft">${readingWords(desk, one)}</span>
        </li>`,
      )}
    </ul>
  </section>`
}

const incubatorForm = (desk: Served): ComponentChild =>
  form(desk, {
    id: 'add-it',
    kind: 'ask',
    title: roomWords.addTitle,
    body: textField({ name: 'label', label: roomWords.label, max: labelMax }),
    submit: roomWords.add,
    onSubmit: (data) => {
      const label = textOf(data, 'label').trim()
      if (!/^[\p{L}\p{N}]+$/u.test(label)) desk.change({ notice: roomWords.labelMissing })
      else void desk.actions.ask('add-it', { type: 'AddIncubator', v: 1, label })
    },
  })

function settings(desk: Served): ComponentChild {
  const { usesStartTap } = desk.board.room
  return html`<section aria-labelledby="settings-title">
    <h2 id="settings-title">${roomWords.settings}</h2>
    <p data-testid="start-tap">${usesStartTap ? roomWords.startTapOn : roomWords.startTapOff}</p>
    ${
      desk.isPermitHolder
        ? html`<p class="acts">${askPress(desk, { id: 'set-start-tap', text: usesStartTap ? roomWords.dropStartTap : roomWords.useStartTap, command: { type: 'SetRoom', v: 1, usesStartTap: !usesStartTap } })}</p>`
        : html`<p class="soft">${roomWords.holderOnly}</p>`
    }
    <p>${hoursWords(desk)}</p>
  </section>`
}

function admitting(desk: Served): ComponentChild {
  if (!desk.isLead) return null
  const isOpen = desk.ui.form?.type === 'admit'
  return html`<section aria-labelledby="admit-title">
    <h2 id="admit-title">${roomWords.broods}</h2>
    <p class="soft">${roomWords.admitHelp}</p>
    ${isOpen ? admitForm(desk) : html`<p class="acts">${press({ id: 'admit', text: roomWords.admit, onPress: () => desk.change({ form: { type: 'admit' }, notice: null }) })}</p>`}
  </section>`
}

export const roomPage = (
  desk: Served,
): ComponentChild => html`<div class="room-page" data-testid="page-room">
  ${admitting(desk)} ${incubators(desk)} ${settings(desk)}
</div>`
