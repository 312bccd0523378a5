// Mending one record: what some bird did or was given, which nest was really fed, or that it is not true
// at all. Each says why, and each is a record of its own.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../shared/base/values.ts'
import { type Outcome, outcomes, wordMax } from '../../shared/board/constants.ts'
import type { DeskNestView, DeskRound, RecordedAnswer } from '../../shared/views/deskNest.ts'
import { html } from '../ui/html.ts'
import { bandWords, capital, outcomeWords } from '../ui/words.ts'
import { amountShown, correctedAnswers } from './correction.ts'
import type { Served } from './desk.ts'
import { cancel, choiceField, form, textField, textOf } from './form.ts'
import { correctReasons, formWords, otherNestReasons } from './nestWords.ts'
import { unitWords } from './officeWords.ts'
import { press } from './press.ts'

const amountMax = 8
const outcomeOptions = outcomes.map((one) => ({ value: one, text: outcomeWords[one] }))

function birdFields(view: DeskNestView, one: RecordedAnswer): ComponentChild {
  const unit = unitWords[one.given?.amount.unit ?? view.unit]
  const name = capital(bandWords(one))
  return html`<div class="together" key=${one.bird}>
    ${choiceField({ name: `outcome-${one.bird}`, label: formWords.outcomeOf(name), options: outcomeOptions, start: one.outcome })}
    ${textField({ name: `amount-${one.bird}`, label: formWords.amountOf(name, unit), max: amountMax, start: amountShown(one) })}
  </div>`
}

function correct(desk: Served, view: DeskNestView, round: DeskRound, data: FormData): void {
  const typed = (bird: BirdId) => ({
    outcome: textOf(data, `outcome-${bird}`) as Outcome,
    amount: textOf(data, `amount-${bird}`),
  })
  const answers = correctedAnswers(round.answers, typed, view.unit)
  const reason = textOf(data, 'reason').trim()
  const problem = answers.ok ? (reason === '' ? 'why' : null) : answers.error
  if (problem !== null || !answers.ok) {
    desk.change({ notice: formWords[problem ?? 'why'] })
    return
  }
  const of = { v: 1, nest: view.summary.nest, claimNo: round.no, reason } as const
  void desk.actions.report({ type: 'CorrectFeed', ...of, answers: [...answers.value] })
}

const reasonField = (ready: readonly string[]): ComponentChild =>
  textField({
    name: 'reason',
    label: formWords.whyPick,
    max: wordMax,
    hint: ready,
    isNeeded: true,
  })

export const correctForm = (desk: Served, view: DeskNestView, round: DeskRound): ComponentChild =>
  form(desk, {
    id: 'correct-it',
    kind: 'report',
    title: formWords.correctTitle(view.summary.label, desk.say.time(round.startedAtMs)),
    help: formWords.correctHelp,
    body: html`${round.answers.map((one) => birdFields(view, one))} ${reasonField(correctReasons)}`,
    submit: formWords.correctSave,
    onSubmit: (data) => correct(desk, view, round, data),
  })

export function otherNestForm(desk: Served, view: DeskNestView, round: DeskRound): ComponentChild {
  const { nest, label } = view.summary
  return form(desk, {
    id: 'other-nest',
    kind: 'report',
    title: formWords.otherTitle(label, desk.say.time(round.startedAtMs)),
    help: formWords.otherHelp,
    body: html`${choiceField({ name: 'toNest', label: formWords.toNest, options: view.otherNests.map((one) => ({ value: one.id, text: one.label })) })}
    ${reasonField(otherNestReasons)}`,
    submit: formWords.otherSave,
    onSubmit: (data) => {
      const reason = textOf(data, 'reason').trim()
      if (reason === '') return desk.change({ notice: formWords.why })
      const toNest = textOf(data, 'toNest') as NestId
      const of = { v: 1, nest, claimNo: round.no, reason, toNest } as const
      void desk.actions.report({ type: 'CorrectFeed', ...of, answers: [] })
    },
  })
}

/** Three answers and a way out: a record is never taken back without saying whether it was fed. */
export function takeBackForm(desk: Served, view: DeskNestView, round: DeskRound): ComponentChild {
  const { nest, label } = view.summary
  const answer = (wasFed: 'yes' | 'no' | 'unknown', text: string) =>
    press({
      id: `was-fed-${wasFed}`,
      text,
      onPress: () =>
        void desk.actions.report({ type: 'TakeBackFeed', v: 1, nest, claimNo: round.no, wasFed }),
    })
  return html`<div class="form" data-testid="form-take-back">
    <h3>${formWords.takeBackTitle(label, desk.say.time(round.startedAtMs))}</h3>
    <p class="acts">
      ${answer('yes', formWords.fedYes)} ${answer('no', formWords.fedNo)}
      ${answer('unknown', formWords.fedUnknown)} ${cancel(desk)}
    </p>
  </div>`
}
