// The table of nests: trouble pinned, then the latest first, with the filters a lead asks by. A nest's
// label opens it.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import { minuteMs } from '../../shared/base/values.ts'
import { speciesOf } from '../../shared/care/species.ts'
import { type DeskNest, deskNests, nestGroups } from '../../shared/views/deskNests.ts'
import { wholeMinutes } from '../ui/clock.ts'
import { html } from '../ui/html.ts'
import type { Served } from './desk.ts'
import { markOf, stateMark } from './stateMark.ts'
import type { NestFilter } from './ui.ts'
import { filterWords, nameOr, nestWords, tabWords } from './words.ts'

/** "House finch HOFI", each species once. */
export const speciesWords = (codes: readonly string[]): ComponentChild =>
  codes.length === 0
    ? nestWords.unknownSpecies
    : codes.map((code, at) => {
        const name = speciesOf(code)?.name
        return html`${at === 0 ? '' : ', '}${name ? `${name} ` : ''}<span class="code">${code}</span>`
      })

/** When it is due, or why it is not. */
export function dueWords(desk: Served, { state }: Pick<DeskNest, 'state'>): string {
  switch (state.type) {
    case 'late':
      return nestWords.late(wholeMinutes(state.lateMs))
    case 'due':
      return nestWords.dueNow
    case 'soon':
    case 'later':
      return nestWords.dueAt(desk.say.time(state.dueAtMs))
    case 'claimed':
      return state.stop === null ? '' : nestWords.stop
    case 'held':
      return `${state.reason}, ${nestWords.lookAt(desk.say.time(state.lookAgainAtMs))}`
    case 'settling':
      return nestWords.lookAt(desk.say.time(state.lookDueAtMs))
    case 'unplanned':
      return nestWords.unplanned
    default:
      return unreachable(state)
  }
}

function handsOf(desk: Served, row: DeskNest): ComponentChild {
  const { state, asked, trouble, doubt } = row
  return html`
    ${state.type === 'claimed' ? html`<span class="pill full">${nestWords.holds(nameOr(state.name), wholeMinutes(desk.nowMs - state.sinceMs))}</span>` : null}
    ${asked ? html`<span class="pill hollow">${nestWords.askedName(nameOr(asked.name))}</span>` : null}
    ${trouble ? html`<b class="trouble">${nestWords.trouble[trouble]}</b>` : null}
    ${doubt ? html`<i>${nestWords.perhaps}</i>` : null}
    ${row.heldBirds > 0 && state.type !== 'held' ? html`<i>${nestWords.someHeld(row.heldBirds)}</i>` : null}
  `
}

function tableRow(desk: Served, row: DeskNest): ComponentChild {
  const { nest, label, every, lastFedAtMs } = row
  const mark = markOf(row)
  return html`<tr key=${nest} class=${row.trouble ? 'pinned' : ''} data-testid=${`nest-${label}`} data-state=${mark}>
    <td>${stateMark(mark)}</td>
    <th scope="row">
      <button type="button" class="label" data-testid=${`open-${label}`} onClick=${() => desk.change({ nest, form: null, notice: null })}>
        ${row.isQuarantined ? `[${label}]` : label}
        ${row.isQuarantined ? html`<span class="unseen"> ${nestWords.quarantined}</span>` : null}
      </button>
    </th>
    <td class="wide"><span class="box">${row.incubatorLabel}</span></td>
    <td class="species">${speciesWords(row.species)}</td>
    <td class="n">${row.birds}</td>
    <td class="n wide">${every ? nestWords.everyMinutes(Math.round(every.loMs / minuteMs), Math.round(every.hiMs / minuteMs)) : '–'}</td>
    <td class="n wide">${lastFedAtMs === null ? '–' : desk.say.time(lastFedAtMs)}</td>
    <td class=${row.state.type === 'late' ? 'due late' : 'due'}>${dueWords(desk, row)}</td>
    <td class="hands">${handsOf(desk, row)}</td>
  </tr>`
}

const filters: readonly NestFilter[] = [...nestGroups, 'all']

const heads = [
  ['', ''],
  ['', nestWords.nest],
  ['wide', nestWords.incubator],
  ['species', nestWords.species],
  ['n', nestWords.birds],
  ['n wide', nestWords.every],
  ['n wide', nestWords.lastFed],
  ['', nestWords.due],
  ['', nestWords.hands],
] as const

export function nestsTable(desk: Served): ComponentChild {
  const { rows, counts } = deskNests(desk.board, desk.names, desk.nowMs)
  const { filter } = desk.ui
  const shown = filter === 'all' ? rows : rows.filter((row) => row.group === filter || row.trouble)
  const countOf = (one: NestFilter) => (one === 'all' ? rows.length : counts[one])
  return html`<section aria-labelledby="nests-title" data-testid="page-nests">
    <div class="filters">
      <h2 id="nests-title">${tabWords.nests}</h2>
      ${filters.map(
        (one) => html`<button
          type="button"
          key=${one}
          class=${one === filter ? 'filter on' : 'filter'}
          aria-pressed=${one === filter}
          data-testid=${`filter-${one}`}
          onClick=${() => desk.change({ filter: one })}
        >
          ${filterWords[one]} ${countOf(one)}
        </button>`,
      )}
      <em>${nestWords.order}</em>
    </div>
    <table class="nests">
      <caption class="unseen">${nestWords.caption}</caption>
      <thead>
        <tr>
          ${heads.map(([kind, words], at) => (at === 0 ? html`<td></td>` : html`<th scope="col" class=${kind} key=${words}>${words}</th>`))}
        </tr>
      </thead>
      <tbody>
        ${shown.map((row) => tableRow(desk, row))}
      </tbody>
    </table>
    ${shown.length === 0 ? html`<p class="soft">${nestWords.noneSuch}</p>` : null}
  </section>`
}
