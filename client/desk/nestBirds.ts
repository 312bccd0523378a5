// The birds of an opened nest: how each is told from the others, what it is given and did lately, what
// keeps it from being fed.

import type { ComponentChild } from 'preact'
import { minuteMs } from '../../shared/base/values.ts'
import type { Feed } from '../../shared/board/state.ts'
import type { DeskBird, DeskNestView } from '../../shared/views/deskNest.ts'
import { html } from '../ui/html.ts'
import { bandMark } from '../ui/shapes.ts'
import { amountWords, bandWords, capital, outcomeWords, techniqueWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { holdForm, liftForm, moveBirdForm } from './nestForms.ts'
import { broodWords } from './nestWords.ts'
import { press } from './press.ts'
import type { Form } from './ui.ts'
import { nameOr } from './words.ts'

const givenWords = (given: Feed['given']): string | null => {
  if (!given) return null
  const amount = amountWords(given.amount)
  return given.is === 'planned' ? broodWords.planned(amount) : broodWords.measured(amount)
}

function feedLine(desk: Served, feed: Feed): string {
  const line = broodWords.feed(
    desk.say.time(feed.startedAtMs),
    outcomeWords[feed.outcome],
    givenWords(feed.given),
  )
  const also = [
    ...(feed.isSaid ? [broodWords.said] : []),
    ...(feed.extraAfter === null ? [] : [broodWords.extra]),
  ]
  return also.length === 0 ? line : `${line} (${also.join(', ')})`
}

function planWords({ plan, everyMs }: DeskBird): string {
  if (!plan) return broodWords.noPlan
  return broodWords.planLine(
    plan.label,
    techniqueWords[plan.technique],
    Math.round(everyMs / minuteMs),
  )
}

function massWords({ massesMg }: DeskBird): string {
  const latest = massesMg.latest.map(({ massMg }) => broodWords.grams(massMg))
  const { arrival } = massesMg
  if (arrival === null) return '–'
  const first = broodWords.grams(arrival)
  return latest.at(-1) === first ? first : [...latest, broodWords.arrived(first)].join(', ')
}

/** What keeps it from being fed. */
function standing(desk: Served, bird: DeskBird): readonly string[] {
  const { ownHold } = bird
  return [
    ...(bird.isSettling ? [broodWords.warming] : []),
    ...(bird.isCalledFor ? [broodWords.called] : []),
    ...(ownHold
      ? [
          broodWords.hold(
            ownHold.reason,
            nameOr(bird.holdByName),
            desk.say.time(ownHold.lookAgainAtMs),
          ),
        ]
      : []),
  ]
}

function acts(desk: Served, view: DeskNestView, bird: DeskBird): ComponentChild {
  const { nest } = view.summary
  const opens = (form: Form) => () => desk.change({ form, notice: null })
  const hold = bird.ownHold
    ? press({
        ...{ id: `lift-${bird.bird}`, text: broodWords.liftBird },
        onPress: opens({ type: 'lift', nest, bird: bird.bird }),
      })
    : press({
        ...{ id: `hold-${bird.bird}`, text: broodWords.holdBird },
        onPress: opens({ type: 'hold', nest, bird: bird.bird }),
      })
  return html`<span class="acts">
    ${hold}
    ${view.can.lead && view.birds.length > 1 ? press({ id: `move-${bird.bird}`, text: broodWords.moveBird, onPress: opens({ type: 'moveBird', bird: bird.bird }) }) : null}
  </span>`
}

function birdForm(desk: Served, view: DeskNestView, bird: DeskBird): ComponentChild {
  const { form } = desk.ui
  if (form?.type === 'hold' && form.bird === bird.bird) return holdForm(desk, view, bird)
  if (form?.type === 'lift' && form.bird === bird.bird) return liftForm(desk, view, bird)
  return form?.type === 'moveBird' && form.bird === bird.bird ? moveBirdForm(desk, bird) : null
}

function row(desk: Served, view: DeskNestView, bird: DeskBird): ComponentChild {
  const open = birdForm(desk, view, bird)
  const due = bird.dueAtMs === null ? '–' : desk.say.time(bird.dueAtMs)
  return html`<li class="bird" key=${bird.bird} data-testid=${`bird-${bird.bird}`}>
    <h3>${bandMark(bird.band)} ${capital(bandWords(bird))}</h3>
    <dl>
      <div><dt>${broodWords.plan}</dt><dd>${planWords(bird)}</dd></div>
      <div><dt>${broodWords.due}</dt><dd>${due}</dd></div>
      <div>
        <dt>${broodWords.feeds}</dt>
        <dd>
          ${bird.feeds.length === 0 ? broodWords.noFeeds : bird.feeds.map((feed) => html`<span class="feed" key=${feed.no}>${feedLine(desk, feed)}</span>`)}
        </dd>
      </div>
      <div><dt>${broodWords.mass}</dt><dd>${massWords(bird)}</dd></div>
    </dl>
    ${standing(desk, bird).map((words) => html`<p class="standing" key=${words}>${words}</p>`)}
    ${open ?? acts(desk, view, bird)}
  </li>`
}

export const nestBirds = (desk: Served, view: DeskNestView): ComponentChild =>
  html`<section aria-labelledby="birds-title">
    <h2 id="birds-title">${broodWords.birds}  <small>${view.birds.length}</small></h2>
    <ul class="birds">
      ${view.birds.map((bird) => row(desk, view, bird))}
    </ul>
  </section>`
