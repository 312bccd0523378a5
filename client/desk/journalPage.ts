// The journal's last lines, newest first: when, who, what. Read from the room while this page is open;
// what was said to the lead alone is shown to a lead alone.

import type { ComponentChild } from 'preact'
import type { BirdId, IncubatorId, NestId, PersonId, PlanId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { namedBird } from '../../shared/views/deskBird.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { html } from '../ui/html.ts'
import { bandWords, capital } from '../ui/words.ts'
import type { Served } from './desk.ts'
import type { JournalSay } from './journalSay.ts'
import { eventWords } from './journalWords.ts'
import { journalPageWords } from './words.ts'

function journalSay({ board, say }: Served): JournalSay {
  const nest = (id: string) => board.nests[id as NestId]?.label ?? journalPageWords.formerNest
  return {
    time: say.time,
    person: (id) => say.person(id as PersonId),
    nest,
    bird: (id) => {
      const named = namedBird(board, id as BirdId)
      const of = board.birds[id as BirdId]?.nest
      return named && of
        ? journalPageWords.birdOf(bandWords(named), nest(of))
        : journalPageWords.formerBird
    },
    incubator: (id) => board.incubators[id as IncubatorId]?.label ?? '?',
    plan: (id) => board.plans[id as PlanId]?.label ?? journalPageWords.formerPlan,
  }
}

function whoOf(desk: Served, { by, cause }: RecordFrame): string {
  if (by !== null) return desk.say.person(by)
  switch (cause.type) {
    case 'clock':
      return journalPageWords.clock
    case 'sensor':
      return journalPageWords.sensor
    case 'server':
    case 'command':
      return journalPageWords.server
  }
}

const isForEverybody = (event: RoomEvent): boolean => event.type !== 'LeadTold'

/** A record that changed nothing still happened, and says so. */
function row(desk: Served, say: JournalSay, record: RecordFrame): ComponentChild {
  const events = desk.isLead ? record.events : record.events.filter(isForEverybody)
  if (events.length === 0 && record.events.length > 0) return null
  const what =
    events.length === 0
      ? journalPageWords.nothing
      : events.map((event) => capital(eventWords(event, say))).join(' ')
  return html`<tr key=${record.version} data-testid=${`record-${record.version}`}>
    <td><time>${desk.say.time(record.atMs)}</time></td>
    <td>${whoOf(desk, record)}</td>
    <td>${what}</td>
  </tr>`
}

function table(desk: Served, records: readonly RecordFrame[]): ComponentChild {
  const say = journalSay(desk)
  return html`<table class="journal">
    <thead>
      <tr>
        <th scope="col">${journalPageWords.when}</th>
        <th scope="col">${journalPageWords.who}</th>
        <th scope="col">${journalPageWords.what}</th>
      </tr>
    </thead>
    <tbody>
      ${[...records].reverse().map((record) => row(desk, say, record))}
    </tbody>
  </table>`
}

export function journalPage(desk: Served): ComponentChild {
  desk.journal.refresh()
  const { now } = desk.journal
  return html`<section aria-labelledby="journal-title" data-testid="page-journal">
    <h2 id="journal-title">${journalPageWords.title} <small>${journalPageWords.small}</small></h2>
    ${now.status === 'unread' ? html`<p class="soft">${journalPageWords.reading}</p>` : null}
    ${now.status === 'failed' ? html`<p class="soft">${journalPageWords.failed}</p>` : null}
    ${now.status === 'read' ? table(desk, now.records) : null}
  </section>`
}
