// A new care plan, by hand or begun from a default: filling in makes a new draft, and every field of it
// can be changed before it is set. Default figures are starting points; the form says whose word counts.

import type { ComponentChild } from 'preact'
import { type Amount, minuteMs } from '../../shared/base/values.ts'
import { type Technique, techniques, wordMax } from '../../shared/board/constants.ts'
import type { DefaultPlan } from '../../shared/care/defaultPlan.ts'
import { defaultPlans } from '../../shared/care/defaultPlans.ts'
import { draftOf, type PlanDraft } from '../../shared/views/deskPlans.ts'
import { html } from '../ui/html.ts'
import { capital, techniqueWords } from '../ui/words.ts'
import { typedAmount, typedText } from './amountInput.ts'
import type { Served } from './desk.ts'
import { choiceField, form, textField, textOf } from './form.ts'
import { planWords, unitWords } from './officeWords.ts'
import { clockTimesText, planOfFields } from './planInput.ts'
import { press } from './press.ts'
import type { Form } from './ui.ts'

export type PlanForm = Extract<Form, { type: 'plan' }>

const fieldMax = { figure: 8, clockTimes: 120, source: 200 } as const

/** "smallSongbirdFledgling" as "Small songbird fledgling". */
const nameOfDefault = (id: string): string =>
  capital(id.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase())

const defaultWords = ({ id, intervalMs, source }: DefaultPlan): string => {
  const minutes = intervalMs === null ? '' : `${Math.round(intervalMs / minuteMs)} min`
  return `${nameOfDefault(id)} (${planWords.from(minutes, source)})`
}

const numberText = (n: number | null, unit: Amount['unit']): string =>
  n === null ? '' : typedText(n, unit)

/** Where the figures may begin; filling in forgets what was typed below. */
function startFrom(desk: Served, open: PlanForm): ComponentChild {
  const fill = () => {
    const chosen = (name: string) =>
      document.querySelector<HTMLInputElement | HTMLSelectElement>(`[name="${name}"]`)?.value ?? ''
    const plan = defaultPlans.find(({ id }) => id === chosen('from'))
    const mass = typedAmount(chosen('mass'), 'mg')
    if (!plan) return
    const draft = draftOf(plan, mass.type === 'amount' ? mass.amount.n : null)
    desk.change({ notice: null, form: { ...open, draft, at: open.at + 1 } })
  }
  return html`<div class="together start-from">
    ${choiceField({ name: 'from', label: planWords.startFrom, options: defaultPlans.map((plan) => ({ value: plan.id, text: defaultWords(plan) })) })}
    ${textField({ name: 'mass', label: planWords.startMass, max: fieldMax.figure })}
    ${press({ id: 'fill-in', text: planWords.startPress, onPress: fill })}
  </div>`
}

function timingFields({ everyMs, minutesOfDay, earlyPercent }: PlanDraft): ComponentChild {
  const everyMinutes = everyMs === null ? '' : String(Math.round(everyMs / minuteMs))
  const clockTimes = minutesOfDay === null ? '' : clockTimesText(minutesOfDay)
  return html`
    ${textField({ name: 'everyMinutes', label: planWords.everyMinutes, max: fieldMax.figure, start: everyMinutes })}
    ${textField({ name: 'clockTimes', label: planWords.clockTimes, max: fieldMax.clockTimes, start: clockTimes })}
    ${textField({ name: 'earlyPercent', label: planWords.earlyPercent, max: fieldMax.figure, start: String(earlyPercent) })}
  `
}

function fields(draft: PlanDraft, at: number): ComponentChild {
  const { unit } = draft
  return html`<div class="fields" key=${at}>
    ${textField({ name: 'label', label: planWords.label, max: wordMax, start: draft.label })}
    ${choiceField({ name: 'technique', label: planWords.technique, options: techniques.map((one) => ({ value: one, text: techniqueWords[one] })), start: draft.technique })}
    ${timingFields(draft)}
    ${choiceField({ name: 'unit', label: planWords.unit, options: (['uL', 'mg', 'pieces'] as const).map((one) => ({ value: one, text: unitWords[one] })), start: unit })}
    ${textField({ name: 'planned', label: planWords.plannedAmount, max: fieldMax.figure, start: numberText(draft.plannedN, unit) })}
    ${textField({ name: 'cap', label: planWords.capAmount, max: fieldMax.figure, start: numberText(draft.capN, unit) })}
    ${textField({ name: 'source', label: planWords.sourceOf, max: fieldMax.source, start: draft.source })}
  </div>`
}

function set(desk: Served, { replaces }: PlanForm, data: FormData): void {
  const text = (name: string) => textOf(data, name)
  const plan = planOfFields({
    ...{ label: text('label'), technique: text('technique') as Technique },
    ...{ everyMinutes: text('everyMinutes'), clockTimes: text('clockTimes') },
    ...{ earlyPercent: text('earlyPercent'), unit: text('unit') as Amount['unit'] },
    ...{ planned: text('planned'), cap: text('cap'), source: text('source') },
  })
  if (!plan.ok) desk.change({ notice: planWords.problems[plan.error] })
  else {
    const instead = replaces === null ? {} : { replaces }
    void desk.actions.ask('set-plan', { type: 'SetPlan', v: 1, plan: plan.value, ...instead })
  }
}

export function planForm(desk: Served, open: PlanForm): ComponentChild {
  const old = open.replaces === null ? undefined : desk.board.plans[open.replaces]
  return form(desk, {
    id: 'set-plan',
    kind: 'ask',
    title: old ? planWords.replaceTitle(old.label) : planWords.newTitle,
    ...(old ? { help: planWords.replaceHelp } : {}),
    body: html`${startFrom(desk, open)} ${fields(open.draft, open.at)}`,
    submit: planWords.save,
    onSubmit: (data) => set(desk, open, data),
  })
}
