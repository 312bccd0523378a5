// The care plans of the room with their sources and who is fed by them. A plan is never edited: another
// takes its place, so that a feed can be read against the plan it was given under.

import type { ComponentChild } from 'preact'
import { minuteMs } from '../../shared/base/values.ts'
import type { CarePlan } from '../../shared/board/parts.ts'
import { whoDecides } from '../../shared/care/cautions.ts'
import { blankDraft, type DeskPlan, deskPlans, draftFrom } from '../../shared/views/deskPlans.ts'
import { html } from '../ui/html.ts'
import { amountWords, techniqueWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { planWords } from './officeWords.ts'
import { planForm } from './planForm.ts'
import { clockTimesText } from './planInput.ts'
import { mainPress, press } from './press.ts'

const timingWords = ({ timing, earlyPercent }: CarePlan): string => {
  const when =
    timing.type === 'every'
      ? planWords.every(Math.round(timing.intervalMs / minuteMs))
      : planWords.at(clockTimesText(timing.minutesOfDay))
  return `${when}, ${planWords.early(earlyPercent)}`
}

function amountsWords({ planned, cap }: CarePlan): string {
  const parts = [
    ...(planned ? [planWords.planned(amountWords(planned))] : []),
    ...(cap ? [planWords.cap(amountWords(cap))] : []),
  ]
  return parts.length === 0 ? planWords.noAmount : parts.join(', ')
}

function row(desk: Served, { plan, birds, labels }: DeskPlan): ComponentChild {
  const { form } = desk.ui
  const replaces = () =>
    desk.change({
      notice: null,
      form: { type: 'plan', replaces: plan.id, draft: draftFrom(plan), at: 0 },
    })
  const isOpen = form?.type === 'plan' && form.replaces === plan.id
  return html`<li class="plan" key=${plan.id} data-testid=${`plan-${plan.id}`}>
    <h3>${plan.label}</h3>
    <dl>
      <div><dt>${planWords.how}</dt><dd>${techniqueWords[plan.technique]}, ${timingWords(plan)}</dd></div>
      <div><dt>${planWords.amount}</dt><dd>${amountsWords(plan)}</dd></div>
      <div><dt>${planWords.source}</dt><dd>${plan.source}</dd></div>
      <div><dt>${planWords.used}</dt><dd>${birds === 0 ? planWords.nobody : planWords.usedBy(birds, labels)}</dd></div>
    </dl>
    ${isOpen ? planForm(desk, form) : null}
    ${desk.isPermitHolder && !isOpen ? html`<p class="acts">${press({ id: `replace-${plan.id}`, text: planWords.replace, onPress: replaces })}</p>` : null}
  </li>`
}

export function plansPage(desk: Served): ComponentChild {
  const plans = deskPlans(desk.board)
  const { form } = desk.ui
  const isNew = form?.type === 'plan' && form.replaces === null
  const add = () =>
    desk.change({ notice: null, form: { type: 'plan', replaces: null, draft: blankDraft, at: 0 } })
  return html`<section aria-labelledby="plans-title" data-testid="page-plans">
    <div class="title">
      <h2 id="plans-title">${planWords.title} <small>${plans.length}</small></h2>
      ${desk.isPermitHolder && !isNew ? mainPress({ id: 'add-plan', text: planWords.add, onPress: add }) : null}
    </div>
    <p class="caution">${whoDecides.text}</p>
    ${desk.isPermitHolder ? null : html`<p class="soft">${planWords.holderOnly}</p>`}
    ${isNew ? planForm(desk, form) : null}
    <ul class="plans">
      ${plans.map((one) => row(desk, one))}
    </ul>
  </section>`
}
