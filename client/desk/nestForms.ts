// What a lead does to a nest or one of its birds: ask somebody, hold and lift, release an arrival, move.

import type { ComponentChild } from 'preact'
import {
  type BirdId,
  type IncubatorId,
  minuteMs,
  type NestId,
  type PersonId,
  type PlanId,
} from '../../shared/base/values.ts'
import { wordMax } from '../../shared/board/constants.ts'
import type { DeskBird, DeskNestView } from '../../shared/views/deskNest.ts'
import { nestPlaces } from '../../shared/views/movesView.ts'
import { html } from '../ui/html.ts'
import { refusalWords } from '../ui/refusalWords.ts'
import { bandWords, holdReasons, liftReasons, minutesWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { cancel, choiceField, form, textField, textOf, tickField } from './form.ts'
import { broodWords, formWords } from './nestWords.ts'
import { nameOr } from './words.ts'

const lookAgainMinutes = [15, 30, 60, 120, 240] as const

/** A form whose list of choices is empty says why, and can only be left. */
const nothingToChoose = (desk: Served, words: string): ComponentChild =>
  html`<div class="form"><p>${words}</p><p class="acts">${cancel(desk)}</p></div>`

export function askForm(desk: Served, { summary, askable }: DeskNestView): ComponentChild {
  const { nest, label } = summary
  if (askable.length === 0) return nothingToChoose(desk, broodWords.askNobody)
  return form(desk, {
    id: 'ask-somebody',
    kind: 'ask',
    title: broodWords.askTitle(label),
    body: choiceField({
      name: 'person',
      label: broodWords.askTitle(label),
      options: askable.map(({ person, name }) => ({ value: person, text: nameOr(name) })),
    }),
    submit: broodWords.ask.replace(' …', ''),
    onSubmit: (data) => {
      const person = textOf(data, 'person') as PersonId
      void desk.actions.ask('ask-somebody', { type: 'OfferNest', v: 1, nest, person })
    },
  })
}

const whatWords = ({ summary }: DeskNestView, bird: DeskBird | null): string =>
  bird ? `${summary.label}, ${bandWords(bird)}` : formWords.wholeNest(summary.label)

export function holdForm(desk: Served, view: DeskNestView, bird: DeskBird | null): ComponentChild {
  const { nest } = view.summary
  return form(desk, {
    id: 'hold-it',
    kind: bird ? 'report' : 'ask',
    title: formWords.holdTitle(whatWords(view, bird)),
    body: html`${textField({ name: 'reason', label: formWords.whyPick, max: wordMax, hint: holdReasons, isNeeded: true })}
    ${choiceField({ name: 'minutes', label: formWords.lookAgainIn, options: lookAgainMinutes.map((n) => ({ value: String(n), text: minutesWords(n) })), start: '60' })}`,
    submit: formWords.holdSave,
    onSubmit: (data) => {
      const reason = textOf(data, 'reason').trim()
      if (reason === '') return desk.change({ notice: formWords.why })
      const lookAgainAtMs = desk.actions.nowMs() + Number(textOf(data, 'minutes')) * minuteMs
      if (bird) {
        void desk.actions.report({ type: 'HoldBird', v: 1, bird: bird.bird, reason, lookAgainAtMs })
      } else {
        void desk.actions.ask('hold-it', { type: 'SetHold', v: 1, nest, reason, lookAgainAtMs })
      }
    },
  })
}

export function liftForm(desk: Served, view: DeskNestView, bird: DeskBird | null): ComponentChild {
  const { nest } = view.summary
  return form(desk, {
    id: 'lift-it',
    kind: 'ask',
    title: formWords.liftTitle(whatWords(view, bird)),
    body: textField({
      name: 'why',
      label: formWords.whyPick,
      max: wordMax,
      hint: liftReasons,
      isNeeded: true,
    }),
    submit: formWords.liftSave,
    onSubmit: (data) => {
      const whyLifted = textOf(data, 'why').trim()
      if (whyLifted === '') return desk.change({ notice: formWords.why })
      const which = bird ? { bird: bird.bird } : {}
      void desk.actions.ask('lift-it', { type: 'LiftHold', v: 1, nest, ...which, whyLifted })
    },
  })
}

export function releaseForm(desk: Served, { summary, birds }: DeskNestView): ComponentChild {
  const settling = birds.filter((bird) => bird.isSettling).map(({ bird }) => bird)
  const plans = Object.values(desk.board.plans)
  return form(desk, {
    id: 'release-it',
    kind: 'ask',
    title: formWords.releaseTitle(summary.label),
    body: choiceField({
      name: 'plan',
      label: broodWords.plan,
      options: plans.map(({ id, label }) => ({ value: id, text: label })),
    }),
    submit: formWords.releaseSave,
    onSubmit: (data) => {
      const plan = textOf(data, 'plan') as PlanId
      void desk.actions.ask('release-it', { type: 'ReleaseArrival', v: 1, birds: settling, plan })
    },
  })
}

export function moveNestForm(
  desk: Served,
  { summary, otherIncubators }: DeskNestView,
): ComponentChild {
  const { nest, label } = summary
  if (otherIncubators.length === 0) return nothingToChoose(desk, formWords.noOtherIncubator)
  return form(desk, {
    id: 'move-it',
    kind: 'ask',
    title: formWords.moveNestTitle(label),
    body: choiceField({
      name: 'incubator',
      label: formWords.moveNestTitle(label),
      options: otherIncubators.map(({ id, label: text }) => ({ value: id, text })),
    }),
    submit: formWords.moveNestSave,
    onSubmit: (data) => {
      const incubator = textOf(data, 'incubator') as IncubatorId
      void desk.actions.ask('move-it', { type: 'MoveNest', v: 1, nest, incubator })
    },
  })
}

/** Only where it can go; where it can go nowhere, the first reason is said. */
export function moveBirdForm(desk: Served, bird: DeskBird): ComponentChild {
  const places = nestPlaces(desk.board, bird.bird, desk)
  const open = places.filter(({ why }) => why === null)
  if (open.length === 0) {
    const why = places[0]?.why
    return nothingToChoose(desk, why ? refusalWords(why, desk.say) : formWords.noOtherNest)
  }
  return form(desk, {
    id: 'move-bird',
    kind: 'ask',
    title: formWords.moveBirdTitle(bandWords(bird)),
    body: html`${choiceField({ name: 'nest', label: formWords.toNest, options: open.map(({ nest, label }) => ({ value: nest, text: label })) })}
    ${open.some(({ needsDecision }) => needsDecision) ? tickField({ name: 'decided', label: formWords.quarantineDecided, value: 'decided', isOn: false }) : null}`,
    submit: formWords.moveBirdSave,
    onSubmit: (data) => moveBird(desk, bird.bird, data),
  })
}

function moveBird(desk: Served, bird: BirdId, data: FormData): void {
  const nest = textOf(data, 'nest') as NestId
  const decided = data.has('decided') ? { isQuarantineDecided: true as const } : {}
  void desk.actions.ask('move-bird', { type: 'MoveBird', v: 1, bird, nest, ...decided })
}
