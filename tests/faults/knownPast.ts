// A short past of two devices, written by the server's own journal, and everything the two were told
// of it: what the audit is given when its own eyes are tested. Ana (p1, d1) and Ben (p2, d2) share a
// nest of two birds.
//
//   1 founded   2 d1.1 shift   3 d2.1 shift   4 d1.2 claims n1   5 d2.2 weighs b1
//   6 d1.3 answers both birds, which ends the claim   7 d2.3 claims n1

import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { realDisk } from '../../server/disk/realDisk.ts'
import { openJournal } from '../../server/journal/journal.ts'
import type { JournalEntry } from '../../server/journal/record.ts'
import type { PersonId, PrivateId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { type RoomEvent, readEvents } from '../../shared/board/events.ts'
import type { Answer, CommandFrame, FromServer } from '../../shared/wire/frames.ts'
import {
  birdOf,
  claimed,
  clock,
  ended,
  founded,
  incubator,
  incubatorOf,
  nest,
  nestOf,
  onShift,
  person,
  personOf,
  planEvery,
  planOf,
  round,
} from '../support/roomBuilder.ts'
import { Oracle, type Telling } from './oracle.ts'
import { hashOf } from './privateOnDisk.ts'

export const ana = personOf(1)
export const ben = personOf(2)
const n1 = nestOf(1)
const birds = [birdOf(1), birdOf(2)]
export const benClaims = { nest: n1, no: 2, by: ben, birds, at: '07:10' } as const
const anaClaims = { nest: n1, no: 1, by: ana, birds, at: '07:00' } as const

type Step = {
  readonly lane: 'd1' | 'd2'
  readonly n: number
  readonly body: Command
  readonly events: readonly RoomEvent[]
}

const weighed = { type: 'Weighed', v: 1, bird: birdOf(1), massMg: 9_100 } as const

const steps: readonly Step[] = [
  { lane: 'd1', n: 1, body: { type: 'BeginShift', v: 1 }, events: [onShift(ana)] },
  { lane: 'd2', n: 1, body: { type: 'BeginShift', v: 1 }, events: [onShift(ben)] },
  {
    lane: 'd1',
    n: 2,
    body: { type: 'ClaimNest', v: 1, nest: n1 },
    events: [claimed(anaClaims)],
  },
  {
    lane: 'd2',
    n: 2,
    body: weighed,
    events: [{ ...weighed, by: ben, atMs: clock('07:02') }],
  },
  {
    lane: 'd1',
    n: 3,
    body: {
      type: 'AnswerBirds',
      v: 1,
      nest: n1,
      claimNo: 1,
      answers: birds.map((bird) => ({ bird, outcome: 'ate' as const })),
    },
    events: [round(anaClaims), ended(anaClaims, 'fed', '07:05')],
  },
  {
    lane: 'd2',
    n: 3,
    body: { type: 'ClaimNest', v: 1, nest: n1 },
    events: [claimed(benClaims)],
  },
]

const personOfLane = (lane: Step['lane']): PersonId => (lane === 'd1' ? ana : ben)

const salt = '0'.repeat(32)
const words = { x1: { name: 'Ana' }, x2: { name: 'Ben' } }
const named = (id: keyof typeof words) => ({
  name: { id: id as PrivateId, hash: hashOf({ salt, fields: words[id] }) },
})

const founding: readonly RoomEvent[] = [
  ...founded({ opens: '06:00', closes: '21:00' }),
  { ...person(ana, 'volunteer'), ...named('x1') },
  { ...person(ben, 'volunteer'), ...named('x2') },
  incubator(incubatorOf(1), '1'),
  planEvery(planOf(1), 30, { technique: 'gapeSyringe', earlyPercent: 10 }),
  nest(n1, {
    label: 'A',
    incubator: incubatorOf(1),
    birds: birds.map((id) => ({ id, plan: planOf(1) })),
  }),
]

const entries: readonly JournalEntry<RoomEvent>[] = [
  {
    version: 1,
    epoch: 1,
    atMs: clock('06:00'),
    cause: { type: 'server' },
    by: null,
    device: null,
    events: founding,
  },
  ...steps.map(({ lane, n, events }, at) => ({
    version: at + 2,
    epoch: 1,
    atMs: clock('07:15'),
    cause: { type: 'command', lane, n } as const,
    by: personOfLane(lane),
    device: lane,
    events,
  })),
]

/** The words the records name, without the checksums that only the program reads. */
export function writeKnownWords(dir: string): void {
  const lines = Object.entries(words).map(([id, fields]) => JSON.stringify({ id, salt, fields }))
  writeFileSync(join(dir, 'private.ndjson'), `${lines.join('\n')}\n`)
}

/** Writes the past, as the server would, into a folder that is empty. */
export async function writeKnownPast(dir: string): Promise<void> {
  const place = { disk: realDisk, dir, room: 'meadow', parseEvents: readEvents }
  const { journal } = await openJournal({ ...place, onRecord: () => undefined })
  await journal.append(entries, '2026-05-16')
  await journal.close()
  writeKnownWords(dir)
}

export const frameOf = (step: Pick<Step, 'lane' | 'n' | 'body'>): CommandFrame => ({
  type: 'command',
  lane: step.lane,
  n: step.n,
  by: personOfLane(step.lane),
  timing: { notedAgoMs: 0, heardAtMs: clock('06:30') },
  body: step.body,
})

/** An oracle that has seen all of it: both devices sent, were shown every record and were answered. */
export function oracleOfAll(): Oracle {
  const oracle = new Oracle()
  for (const screen of ['d1', 'd2']) {
    oracle.sent(screen, {
      type: 'hello',
      protocol: 1,
      room: 'meadow',
      screen: 'hand',
      epoch: 1,
      version: 1,
    })
  }
  for (const step of steps) oracle.sent(step.lane, frameOf(step))
  for (const entry of entries.slice(1)) {
    const { device: _device, epoch: _epoch, ...shown } = entry
    const frame: FromServer = { type: 'record', ...shown }
    for (const screen of ['d1', 'd2']) oracle.told(screen, frame)
  }
  for (const [at, { lane, n }] of steps.entries()) {
    const answer: Answer = { status: 'applied', version: at + 2 }
    oracle.told(lane, { type: 'answer', lane, n, answer })
  }
  return oracle
}

export const tellingOfAll = (): Telling => oracleOfAll().drain()
