// A brood whose plan is known comes onto the board: where it lies, what it is, how many, under which
// plan. A box nobody knows is put on the board from a handheld and warms first.

import type { ComponentChild } from 'preact'
import type { IncubatorId, PlanId } from '../../shared/base/values.ts'
import { labelMax } from '../../shared/board/constants.ts'
import { knownSpecies } from '../../shared/care/species.ts'
import { codeOf, type SpeciesList } from '../../shared/care/speciesCodes.ts'
import { freeLabel } from '../../shared/views/freeLabel.ts'
import { byLabel } from '../../shared/views/nestOrder.ts'
import { html } from '../ui/html.ts'
import { birdsOfFields } from './broodInput.ts'
import type { Served } from './desk.ts'
import { cancel, choiceField, form, textField, textOf, tickField } from './form.ts'
import { roomWords } from './officeWords.ts'

/** Which of the two lists this desk writes; the board keeps the code alone. */
const listInUse: SpeciesList = 'BBL'

const bandsMax = 160
const speciesMax = 60

/** "House finch HOFI", for every species known by name. */
const speciesOffered: readonly { readonly code: string; readonly text: string }[] =
  knownSpecies.flatMap(({ name }) => {
    const code = codeOf(name, listInUse)
    return code === null ? [] : [{ code, text: `${name} ${code}` }]
  })

/** The four letters of what was chosen, or what was typed as them. */
const codeTyped = (text: string): string =>
  speciesOffered.find((one) => one.text.toLowerCase() === text.trim().toLowerCase())?.code ??
  text.trim()

function admit(desk: Served, data: FormData): void {
  const label = textOf(data, 'label').trim()
  const birds = birdsOfFields({
    ...{ howMany: textOf(data, 'howMany'), bands: textOf(data, 'bands') },
    ...{ species: codeTyped(textOf(data, 'species')), plan: textOf(data, 'plan') as PlanId },
  })
  if (!/^[\p{L}\p{N}]+$/u.test(label)) desk.change({ notice: roomWords.labelMissing })
  else if (!birds.ok) desk.change({ notice: roomWords.problems[birds.error] })
  else {
    const incubator = textOf(data, 'incubator') as IncubatorId
    const where = { label, incubator, quarantined: data.has('quarantined') }
    void desk.actions.ask('admit-it', { type: 'AdmitBrood', v: 1, ...where, birds: birds.value })
  }
}

export function admitForm(desk: Served): ComponentChild {
  const incubators = [...Object.values(desk.board.incubators)].sort(byLabel)
  const plans = Object.values(desk.board.plans)
  if (plans.length === 0 || incubators.length === 0) {
    const words = plans.length === 0 ? roomWords.noPlan : roomWords.noIncubator
    return html`<div class="form"><p>${words}</p><p class="acts">${cancel(desk)}</p></div>`
  }
  return form(desk, {
    id: 'admit-it',
    kind: 'ask',
    title: roomWords.admitTitle,
    body: html`
      ${textField({ name: 'label', label: roomWords.nestLabel, max: labelMax, start: freeLabel(desk.board) })}
      ${choiceField({ name: 'incubator', label: roomWords.incubator, options: incubators.map(({ id, label }) => ({ value: id, text: label })) })}
      ${textField({ name: 'species', label: roomWords.species, max: speciesMax, hint: speciesOffered.map(({ text }) => text) })}
      ${textField({ name: 'howMany', label: roomWords.howMany, max: 2 })}
      ${textField({ name: 'bands', label: roomWords.bands, max: bandsMax })}
      ${choiceField({ name: 'plan', label: roomWords.plan, options: plans.map(({ id, label }) => ({ value: id, text: label })) })}
      ${tickField({ name: 'quarantined', label: roomWords.quarantined, value: 'quarantined', isOn: false })}
    `,
    submit: roomWords.admitSave,
    onSubmit: (data) => admit(desk, data),
  })
}
