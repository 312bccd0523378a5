// Hands: everybody on shift with what they may do and what they have; who is off shift is folded away.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../shared/base/control.ts'
import type { SignOff } from '../../shared/board/constants.ts'
import { type DeskHand, type Doing, deskHands } from '../../shared/views/deskHands.ts'
import { wholeMinutes } from '../ui/clock.ts'
import { html } from '../ui/html.ts'
import { roleWords } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { handsWords, nameOr, signOffWords } from './words.ts'

export const signOffsWords = (signOffs: readonly SignOff[]): string =>
  signOffs.length === 0 ? handsWords.none : signOffs.map((one) => signOffWords[one]).join(', ')

function pill(desk: Served, doing: Doing): { kind: string; words: string } {
  const minutes = (sinceMs: number) => wholeMinutes(desk.nowMs - sinceMs)
  switch (doing.type) {
    case 'claim':
      return { kind: 'full', words: handsWords.claim(doing.label, minutes(doing.sinceMs)) }
    case 'call':
      return { kind: 'full', words: handsWords.call(doing.kind, doing.label) }
    case 'asked':
      return { kind: 'hollow', words: handsWords.asked(doing.label) }
    case 'break':
      return {
        kind: 'away',
        words: handsWords.back(doing.backAtMs === null ? null : desk.say.time(doing.backAtMs)),
      }
    case 'mentorAway':
      return { kind: 'away', words: handsWords.mentorAway }
    case 'silent':
      return { kind: 'away', words: handsWords.silent(desk.say.time(doing.sinceMs)) }
    case 'unreachable':
      return { kind: 'gone', words: handsWords.unreachable(desk.say.time(doing.sinceMs)) }
    case 'free':
      return { kind: 'hollow', words: handsWords.free }
    case 'off':
      return { kind: 'away', words: handsWords.offShift }
    default:
      return unreachable(doing)
  }
}

function row(desk: Served, one: DeskHand): ComponentChild {
  const { kind, words } = pill(desk, one.doing)
  const unreachable = one.unreachableSinceMs
  const is = [
    ...(one.role === 'volunteer' ? [] : [roleWords[one.role]]),
    ...(one.role === 'trainee'
      ? [handsWords.with(one.mentor ? nameOr(one.mentor.name) : null)]
      : []),
  ]
  return html`<li key=${one.person} data-testid=${`hand-${one.person}`}>
    <b>${nameOr(one.name)}</b>
    <span class="is">${is.join(' ')}</span>
    <span class="has">
      ${unreachable === null ? null : html`<span class="pill gone">${handsWords.unreachable(desk.say.time(unreachable))}</span>`}
      <span class=${`pill ${kind}`}>${words}</span>
    </span>
    <span class="may">${signOffsWords(one.signOffs)}</span>
  </li>`
}

export function handsPart(desk: Served): ComponentChild {
  const { here, off } = deskHands(desk.board, desk.names, desk.nowMs)
  return html`<section aria-labelledby="hands-title" data-testid="hands">
    <h2 id="hands-title">${handsWords.title} <small>${handsWords.here(here.length)}</small></h2>
    <ul class="roster">
      ${here.map((one) => row(desk, one))}
    </ul>
    ${
      off.length === 0
        ? null
        : html`<details>
            <summary>${handsWords.off(off.length)}</summary>
            <p class="soft">${off.map(({ name }) => nameOr(name)).join(', ')}</p>
          </details>`
    }
  </section>`
}
