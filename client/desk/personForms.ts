// The forms about people: a new one, what somebody is signed off for, who answers for a trainee, and
// leaving for good.

import type { ComponentChild } from 'preact'
import type { PersonId } from '../../shared/base/values.ts'
import { nameMax, type Role, roles, type SignOff, signOffs } from '../../shared/board/constants.ts'
import type { DeskHand } from '../../shared/views/deskHands.ts'
import { mentorsFor } from '../../shared/views/mentorsView.ts'
import { html } from '../ui/html.ts'
import { capital, roleWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { choiceField, form, textField, textOf, tickField } from './form.ts'
import { peopleWords } from './officeWords.ts'
import { nameOr, signOffWords } from './words.ts'

const signOffTicks = (has: readonly SignOff[]): ComponentChild => html`<fieldset>
  <legend>${peopleWords.signOffs}</legend>
  ${signOffs.map((one) => tickField({ name: 'signOff', label: signOffWords[one], value: one, isOn: has.includes(one) }))}
</fieldset>`

const ticked = (data: FormData): SignOff[] => {
  const all = data.getAll('signOff')
  return signOffs.filter((one) => all.includes(one))
}

export const addPersonForm = (desk: Served): ComponentChild =>
  form(desk, {
    id: 'add-a-person',
    kind: 'ask',
    title: peopleWords.addTitle,
    body: html`${textField({ name: 'name', label: peopleWords.name, max: nameMax })}
    ${choiceField({ name: 'role', label: peopleWords.role, options: roles.map((role) => ({ value: role, text: capital(roleWords[role]) })), start: 'volunteer' })}
    ${signOffTicks([])}`,
    submit: peopleWords.addSave,
    onSubmit: (data) => {
      const name = textOf(data, 'name').trim()
      const role = textOf(data, 'role') as Role
      if (name === '') desk.change({ notice: peopleWords.nameMissing })
      else {
        void desk.actions.addPerson('add-a-person', {
          ...{ role, signOffs: ticked(data), private: { name } },
        })
      }
    },
  })

export const signOffsForm = (desk: Served, one: DeskHand): ComponentChild =>
  form(desk, {
    id: 'set-sign-offs',
    kind: 'ask',
    title: peopleWords.changeTitle(nameOr(one.name)),
    body: signOffTicks(one.signOffs),
    submit: peopleWords.saveSignOffs,
    onSubmit: (data) =>
      void desk.actions.ask('set-sign-offs', {
        ...{ type: 'SetSignOffs', v: 1, person: one.person, signOffs: ticked(data) },
      }),
  })

export function mentorForm(desk: Served, one: DeskHand): ComponentChild {
  const mentors = mentorsFor(desk.board, desk.names, one.person)
  return form(desk, {
    id: 'set-mentor',
    kind: 'ask',
    title: peopleWords.mentorTitle(nameOr(one.name)),
    body: choiceField({
      name: 'mentor',
      label: peopleWords.mentor,
      options: [
        { value: '', text: peopleWords.nobody },
        ...mentors.map(({ person, name, isHere }) => ({
          value: person,
          text: isHere ? nameOr(name) : `${nameOr(name)}, ${peopleWords.notHere}`,
        })),
      ],
      start: one.mentor?.person ?? '',
    }),
    submit: peopleWords.mentorSave,
    onSubmit: (data) => {
      const chosen = textOf(data, 'mentor')
      const mentor = chosen === '' ? null : (chosen as PersonId)
      void desk.actions.ask('set-mentor', { type: 'SetMentor', v: 1, person: one.person, mentor })
    },
  })
}

export const removeForm = (desk: Served, { person, name }: DeskHand): ComponentChild =>
  form(desk, {
    id: 'remove-it',
    kind: 'ask',
    title: peopleWords.removeTitle(nameOr(name)),
    help: peopleWords.removeHelp,
    body: null,
    submit: peopleWords.removeSave,
    onSubmit: () => void desk.actions.ask('remove-it', { type: 'RemovePerson', v: 1, person }),
  })
