// One nest opened: what stands in its way, what a lead may do to it, its birds and its records. The form
// that is open stands where its press was.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../shared/base/values.ts'
import { type DeskNestView, deskNest } from '../../shared/views/deskNest.ts'
import { html } from '../ui/html.ts'
import type { Served } from './desk.ts'
import { nestBirds } from './nestBirds.ts'
import { askForm, holdForm, liftForm, moveNestForm, releaseForm } from './nestForms.ts'
import { nestRounds } from './nestRounds.ts'
import { dueWords, speciesWords } from './nestsTable.ts'
import { broodWords } from './nestWords.ts'
import { press } from './press.ts'
import type { Form } from './ui.ts'
import { headWords, nameOr, nestWords } from './words.ts'

/** What stands on the nest, each in a sentence. */
function standing({ say }: Served, view: DeskNestView): readonly string[] {
  const { summary, hold, asked } = view
  return [
    ...(summary.isQuarantined ? [broodWords.quarantined] : []),
    ...view.doubts.map((doubt) =>
      doubt.isTwice
        ? broodWords.twice(say.time(doubt.aboutAtMs))
        : broodWords.perhaps(say.time(doubt.aboutAtMs), nameOr(doubt.name)),
    ),
    ...(view.missing > 0 ? [broodWords.missing(view.missing)] : []),
    ...(hold
      ? [broodWords.hold(hold.reason, nameOr(view.holdByName), say.time(hold.lookAgainAtMs))]
      : []),
    ...(asked ? [broodWords.asked(nameOr(asked.name), say.time(asked.endsAtMs))] : []),
    ...(view.note ? [broodWords.note(view.note)] : []),
  ]
}

function acts(desk: Served, { summary, can, hold }: DeskNestView): ComponentChild {
  const { nest } = summary
  const opens = (form: Form) => () => desk.change({ form, notice: null })
  const isWaiting = summary.state.type !== 'claimed' && summary.state.type !== 'held'
  return html`<p class="acts">
    ${can.lead && isWaiting ? press({ id: 'ask', text: broodWords.ask, onPress: opens({ type: 'ask', nest }) }) : null}
    ${can.lead && !hold ? press({ id: 'hold', text: broodWords.holdNest, onPress: opens({ type: 'hold', nest, bird: null }) }) : null}
    ${can.lift ? press({ id: 'lift', text: broodWords.lift, onPress: opens({ type: 'lift', nest, bird: null }) }) : null}
    ${can.release ? press({ id: 'release', text: broodWords.release, onPress: opens({ type: 'release', nest }) }) : null}
    ${can.lead ? press({ id: 'move-nest', text: broodWords.moveNest, onPress: opens({ type: 'moveNest', nest }) }) : null}
  </p>`
}

/** The form about the nest as a whole, where one is open. */
function nestForm(desk: Served, view: DeskNestView): ComponentChild {
  const { form } = desk.ui
  switch (form?.type) {
    case 'ask':
      return askForm(desk, view)
    case 'hold':
      return form.bird === null ? holdForm(desk, view, null) : null
    case 'lift':
      return form.bird === null ? liftForm(desk, view, null) : null
    case 'release':
      return releaseForm(desk, view)
    case 'moveNest':
      return moveNestForm(desk, view)
    default:
      return null
  }
}

/** In a table the column says that a time is when it is due; here the line does. */
function stateLine(desk: Served, { summary }: DeskNestView): string {
  const { state } = summary
  if (state.type === 'claimed') {
    return nestWords.holds(nameOr(state.name), Math.floor((desk.nowMs - state.sinceMs) / 60_000))
  }
  const isBareTime = state.type === 'due' || state.type === 'soon' || state.type === 'later'
  return isBareTime ? `${nestWords.due} ${dueWords(desk, summary)}` : dueWords(desk, summary)
}

/** Null where there is no such nest any more. */
export function nestPage(desk: Served, nest: NestId): ComponentChild {
  const { board, names, person, nowMs } = desk
  const view = deskNest(board, names, { nest, person, nowMs })
  if (!view) return null
  const { summary } = view
  return html`<div class="nest-page" data-testid="page-nest">
    <section>
      <p class="acts">
        ${press({ id: 'all-nests', text: headWords.back, onPress: () => desk.change({ nest: null, form: null, notice: null }) })}
      </p>
      <h2>
        ${broodWords.title(summary.label)}
        <small>${broodWords.incubator(summary.incubatorLabel)}, ${speciesWords(view.species)}</small>
      </h2>
      <p class="state" data-testid="nest-state">${stateLine(desk, view)}</p>
      ${standing(desk, view).map((words) => html`<p class="standing" key=${words}>${words}</p>`)}
      ${nestForm(desk, view) ?? acts(desk, view)}
    </section>
    ${nestBirds(desk, view)} ${nestRounds(desk, view)}
  </div>`
}
