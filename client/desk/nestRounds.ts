// The records of an opened nest, latest first, and the ways to mend one: correct it, put it onto the
// nest that was really fed, take it back. Nothing is overwritten; what is mended says so.

import type { ComponentChild } from 'preact'
import type { DeskNestView, DeskRound } from '../../shared/views/deskNest.ts'
import { html } from '../ui/html.ts'
import { amountWords, bandWords, outcomeWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { broodWords } from './nestWords.ts'
import { press } from './press.ts'
import { correctForm, otherNestForm, takeBackForm } from './roundForms.ts'
import type { Form } from './ui.ts'
import { nameOr } from './words.ts'

const answersWords = ({ answers }: DeskRound): string =>
  answers
    .map((one) => {
      const amount = one.given ? ` ${amountWords(one.given.amount)}` : ''
      return `${bandWords(one)} ${outcomeWords[one.outcome]}${amount}`
    })
    .join('; ')

/** What is odd about it; that it was very quick is for the lead alone. */
function oddities(desk: Served, round: DeskRound): readonly string[] {
  const marks = round.marks.filter((mark) => mark !== 'tooQuick' || desk.isLead)
  return [
    ...(round.standing === 'current' ? [] : [broodWords.standing[round.standing]]),
    ...(round.isSaid ? [broodWords.said] : []),
    ...(round.notKnownWhich ? [broodWords.notKnownWhich(round.notKnownWhich)] : []),
    ...(round.back === null ? [] : [broodWords.back(round.back)]),
    ...(round.door === 'notSeen' ? [broodWords.doorNotSeen] : []),
    ...marks.map((mark) => broodWords.marks[mark]),
    ...(round.corrections === 0 ? [] : [broodWords.corrected(round.corrections)]),
  ]
}

function whatWords(round: DeskRound): string {
  if (round.movedToLabel !== null) return broodWords.movedTo(round.movedToLabel)
  if (round.isTakenBack) return broodWords.takenBack
  return round.answers.length === 0 ? broodWords.goneFromBirds : answersWords(round)
}

function acts(desk: Served, view: DeskNestView, round: DeskRound): ComponentChild {
  if (round.isTakenBack) return null
  const { nest } = view.summary
  const { no } = round
  const opens = (form: Form) => () => desk.change({ form, notice: null })
  return html`<span class="acts">
    ${round.answers.length === 0 ? null : press({ id: `correct-${no}`, text: broodWords.correct, onPress: opens({ type: 'correct', nest, no }) })}
    ${view.otherNests.length === 0 ? null : press({ id: `other-nest-${no}`, text: broodWords.otherNest, onPress: opens({ type: 'otherNest', nest, no }) })}
    ${press({ id: `take-back-${no}`, text: broodWords.takeBack, onPress: opens({ type: 'takeBack', nest, no }) })}
  </span>`
}

function roundForm(desk: Served, view: DeskNestView, round: DeskRound): ComponentChild {
  const { form } = desk.ui
  if (form === null || !('no' in form) || form.no !== round.no) return null
  switch (form.type) {
    case 'correct':
      return correctForm(desk, view, round)
    case 'otherNest':
      return otherNestForm(desk, view, round)
    case 'takeBack':
      return takeBackForm(desk, view, round)
    case 'whichFed':
      return null
  }
}

function row(desk: Served, view: DeskNestView, round: DeskRound): ComponentChild {
  const odd = oddities(desk, round)
  return html`<li key=${round.no} class=${round.isTakenBack ? 'round gone' : 'round'} data-testid=${`round-${round.no}`}>
    <p class="did">
      <time>${desk.say.time(round.startedAtMs)}</time> <b>${nameOr(round.name)}</b>
      <span>${whatWords(round)}</span>
    </p>
    ${odd.length === 0 ? null : html`<p class="soft">${odd.join(', ')}</p>`}
    ${roundForm(desk, view, round) ?? acts(desk, view, round)}
  </li>`
}

export const nestRounds = (desk: Served, view: DeskNestView): ComponentChild =>
  html`<section aria-labelledby="rounds-title">
    <h2 id="rounds-title">${broodWords.rounds}</h2>
    ${view.rounds.length === 0 ? html`<p class="soft">${broodWords.noRounds}</p>` : html`<ul class="rounds">${view.rounds.map((round) => row(desk, view, round))}</ul>`}
  </section>`
