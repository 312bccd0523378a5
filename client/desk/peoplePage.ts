// Who is of this room and what each may do. The permit holder adds people, hands out one-time codes and
// changes sign-offs; a lead says who learns with whom.

import type { ComponentChild } from 'preact'
import { minuteMs, type PersonId } from '../../shared/base/values.ts'
import { type DeskHand, deskHands } from '../../shared/views/deskHands.ts'
import { html } from '../ui/html.ts'
import { capital, roleWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { signOffsWords } from './handsPart.ts'
import { peopleWords } from './officeWords.ts'
import { addPersonForm, mentorForm, removeForm, signOffsForm } from './personForms.ts'
import { isAskOff, mainPress, press } from './press.ts'
import type { Form } from './ui.ts'
import { headWords, nameOr } from './words.ts'

/** The code, for whoever stands beside the desk; it is gone with the next click. */
function shownCode(desk: Served): ComponentChild {
  const { code } = desk.ui
  if (!code) return null
  return html`<section class="code-shown" role="status" data-testid="code-shown">
    <h2>${peopleWords.codeTitle(desk.say.person(code.person))}</h2>
    <p class="digits" data-testid="code">${code.code}</p>
    <p>${peopleWords.codeHelp(Math.round(code.lifeMs / minuteMs))}</p>
    <p class="acts">${press({ id: 'code-done', text: peopleWords.codeDone, onPress: () => desk.change({ code: null }) })}</p>
  </section>`
}

function codePress(desk: Served, person: PersonId): ComponentChild {
  const id = `code-${person}`
  return press({
    id,
    text: desk.ui.asking === id ? headWords.asking : peopleWords.code,
    isOff: isAskOff(desk),
    onPress: () => void desk.actions.issueCode(id, person),
  })
}

function acts(desk: Served, { person, role }: DeskHand): ComponentChild {
  const opens = (form: Form) => () => desk.change({ form, notice: null })
  const isMe = person === desk.person
  return html`<span class="acts">
    ${desk.isLead && role === 'trainee' ? press({ id: `mentor-${person}`, text: peopleWords.mentorPress, onPress: opens({ type: 'mentor', person }) }) : null}
    ${desk.isPermitHolder ? press({ id: `change-${person}`, text: peopleWords.change, onPress: opens({ type: 'signOffs', person }) }) : null}
    ${desk.isPermitHolder ? codePress(desk, person) : null}
    ${desk.isPermitHolder && !isMe ? press({ id: `remove-${person}`, text: peopleWords.remove, onPress: opens({ type: 'remove', person }) }) : null}
  </span>`
}

function personForm(desk: Served, one: DeskHand): ComponentChild {
  const { form } = desk.ui
  if (form === null || !('person' in form) || form.person !== one.person) return null
  switch (form.type) {
    case 'signOffs':
      return signOffsForm(desk, one)
    case 'mentor':
      return mentorForm(desk, one)
    case 'remove':
      return removeForm(desk, one)
  }
}

function shiftWords({ doing }: DeskHand): string {
  if (doing.type === 'off') return peopleWords.shifts.off
  return doing.type === 'break' ? peopleWords.shifts.break : peopleWords.shifts.on
}

function row(desk: Served, one: DeskHand): ComponentChild {
  const mentor = one.role === 'trainee' ? peopleWords.with(one.mentor?.name ?? null) : ''
  return html`<li class="person" key=${one.person} data-testid=${`person-${one.person}`}>
    <p class="name">
      <b>${nameOr(one.name)}</b>
      <span>${capital(roleWords[one.role])}${mentor === '' ? '' : `, ${mentor}`}</span>
      <span class="soft">${shiftWords(one)}</span>
    </p>
    <p class="soft">${signOffsWords(one.signOffs)}</p>
    ${personForm(desk, one) ?? acts(desk, one)}
  </li>`
}

export function peoplePage(desk: Served): ComponentChild {
  const { here, off } = deskHands(desk.board, desk.names, desk.nowMs)
  const adds = desk.ui.form?.type === 'addPerson'
  return html`<div data-testid="page-people">
    ${shownCode(desk)}
    <section aria-labelledby="people-title">
      <div class="title">
        <h2 id="people-title">${peopleWords.title} <small>${here.length + off.length}</small></h2>
        ${desk.isPermitHolder && !adds ? mainPress({ id: 'add-person', text: peopleWords.add, onPress: () => desk.change({ form: { type: 'addPerson' }, notice: null, code: null }) }) : null}
      </div>
      ${desk.isPermitHolder ? null : html`<p class="soft">${peopleWords.holderOnly}</p>`}
      ${adds ? addPersonForm(desk) : null}
      <ul class="people">
        ${[...here, ...off].map((one) => row(desk, one))}
      </ul>
    </section>
  </div>`
}
