// The audit finds what it is there to find: each fact takes a sound past, forges one thing in it as
// well as can be forged, and the count says so. A torture whose audit is blind would pass for ever.

import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { claimed } from '../support/roomBuilder.ts'
import { Audit, type Findings } from './audit.ts'
import type { DiskRecord } from './journalOnDisk.ts'
import {
  ana,
  ben,
  benClaims,
  frameOf,
  oracleOfAll,
  tellingOfAll,
  writeKnownPast,
  writeKnownWords,
} from './knownPast.ts'
import type { Oracle } from './oracle.ts'
import { recordsIn, renumbered, writeRecords } from './rewrittenJournal.ts'

let top: string
let sound: string

beforeEach(async () => {
  top = mkdtempSync(join(tmpdir(), 'broodboard-audit-'))
  sound = join(top, 'sound')
  await writeKnownPast(sound)
})
afterEach(() => rmSync(top, { recursive: true, force: true }))

/** What the audit says of a journal written from these records, of which all of the past was told. */
function auditOf(records: readonly DiskRecord[], oracle: Oracle = oracleOfAll()): Findings {
  const dir = join(top, 'forged')
  forge(records)
  return auditIn(dir, oracle)
}

function auditIn(dir: string, oracle: Oracle): Findings {
  const audit = new Audit(dir)
  audit.take(oracle.drain())
  return audit.findings
}

/** The records in a folder of their own, beside the words they name; the journal's file. */
function forge(records: readonly DiskRecord[]): string {
  const dir = join(top, 'forged')
  const file = writeRecords(dir, records)
  writeKnownWords(dir)
  return file
}

const past = () => [...recordsIn(sound)]
const withVersion = (version: number) => (record: DiskRecord) => record.version === version
const pick = (version: number): DiskRecord => {
  const found = past().find(withVersion(version))
  if (found === undefined) throw new Error(`the known past has a version ${version}`)
  return found
}

describe('the audit', () => {
  it('finds nothing wrong with what the server wrote', () => {
    expect(auditIn(sound, oracleOfAll())).toEqual({
      acknowledged: 6,
      lost: 0,
      doubled: 0,
      failures: [],
    })
  })

  it('finds nothing wrong with the same records sealed by the forger', () => {
    expect(auditOf(past())).toMatchObject({ acknowledged: 6, lost: 0, doubled: 0, failures: [] })
  })

  it('counts an acknowledged report that is gone from the end', () => {
    const oracle = oracleOfAll()
    const shorter = past().slice(0, -1)
    expect(auditOf(shorter, oracle)).toMatchObject({ acknowledged: 6, lost: 1, doubled: 0 })
  })

  it('counts an acknowledged report that is gone from the middle, and all that moved up', () => {
    const without = renumbered(past().filter((record) => record.version !== 5))
    expect(auditOf(without)).toMatchObject({ lost: 3, doubled: 0 })
  })

  it('names the gap where the later ones kept their versions', () => {
    const { lost, failures } = auditOf(past().filter((record) => record.version !== 5))
    expect(lost).toBe(1)
    expect(failures).toContainEqual(expect.stringContaining('version 6 follows version 4'))
  })

  it('counts a command that stands there twice', () => {
    const found = auditOf([...past(), { ...pick(5), version: 8 }])
    expect(found).toMatchObject({ lost: 0, doubled: 1 })
  })

  it('counts a report that came in a second time under another number', () => {
    const again = { ...pick(5), version: 8, cause: { type: 'command', lane: 'd2', n: 4 } }
    const found = auditOf([...past(), again])
    expect(found).toMatchObject({ lost: 0, doubled: 1 })
    expect(found.failures).toContainEqual(expect.stringContaining('nobody ever sent d2.4'))
  })

  it('sees two claims at one nest', () => {
    const second = claimed({ ...benClaims, no: 3, by: ana })
    const record = {
      ...pick(7),
      version: 8,
      by: ana,
      device: 'd1',
      cause: { type: 'command', lane: 'd1', n: 4 },
      events: [second],
    }
    const oracle = oracleOfAll()
    oracle.sent(
      'd1',
      frameOf({ lane: 'd1', n: 4, body: { type: 'ClaimNest', v: 1, nest: benClaims.nest } }),
    )
    const { failures } = auditOf([...past(), record], oracle)
    expect(failures).toContainEqual(
      expect.stringContaining(`n1 was claimed by ${ana} and by ${ben} at once`),
    )
  })

  it('sees that somebody was granted a nest that is not theirs', () => {
    const oracle = oracleOfAll()
    oracle.sent(
      'd1',
      frameOf({ lane: 'd1', n: 4, body: { type: 'ClaimNest', v: 1, nest: benClaims.nest } }),
    )
    const answer = { status: 'applied', version: 7 } as const
    oracle.told('d1', { type: 'answer', lane: 'd1', n: 4, answer })
    const { failures, acknowledged } = auditOf(past(), oracle)
    expect(acknowledged).toBe(6)
    expect(failures).toEqual([`${ana} was granted n1 at version 7, and has it not`])
  })

  it('sees a record that says something else than was shown', () => {
    const heavier = past().map((record) =>
      record.version === 5
        ? {
            ...record,
            events: record.events.map((event) => ({ ...(event as object), massMg: 9_200 })),
          }
        : record,
    )
    const { failures } = auditOf(heavier)
    expect(failures).toEqual(['version 5 was shown, and is not so on disk'])
  })

  it('sees a damaged byte before a sound record', () => {
    const file = forge(past())
    const bytes = readFileSync(file)
    bytes[bytes.indexOf('9100')] = '8'.charCodeAt(0)
    writeFileSync(file, bytes)
    const { failures, lost } = auditIn(join(top, 'forged'), oracleOfAll())
    expect(lost).toBe(1)
    expect(failures).toContainEqual(expect.stringContaining('a damaged line stands before a sound'))
  })

  it('sees a record that is not chained to the one before it', () => {
    const file = forge(past())
    const lines = readFileSync(file, 'utf8').split('\n')
    const elsewhere = writeRecords(join(top, 'other'), [{ ...pick(1), atMs: pick(1).atMs + 1 }])
    lines[0] = readFileSync(elsewhere, 'utf8').trimEnd()
    writeFileSync(file, lines.join('\n'))
    const { failures } = auditIn(join(top, 'forged'), oracleOfAll())
    expect(failures).toContainEqual(expect.stringContaining('version 2 is not chained'))
  })

  it('takes half a record at the end for what a kill leaves', () => {
    const file = forge(past())
    appendFileSync(file, '{"version":8,"epoch":1,"room":"mea')
    expect(auditIn(join(top, 'forged'), oracleOfAll())).toMatchObject({ lost: 0, failures: [] })
  })

  it('counts an acknowledged record of which only half is there', () => {
    const file = forge(past())
    writeFileSync(file, readFileSync(file).subarray(0, -20))
    expect(auditIn(join(top, 'forged'), oracleOfAll())).toMatchObject({ lost: 1 })
  })

  it('sees a refused command that is on disk', () => {
    const oracle = oracleOfAll()
    const why = { code: 'Withdrawn' } as const
    oracle.told('d1', { type: 'answer', lane: 'd1', n: 2, answer: { status: 'rejected', why } })
    expect(auditOf(past(), oracle).failures).toEqual(['d1.2 was refused, and is on disk'])
  })

  it('sees a repeat that got another answer', () => {
    const oracle = oracleOfAll()
    const answer = { status: 'applied', version: 6 } as const
    oracle.told('d2', { type: 'answer', lane: 'd2', n: 2, answer })
    expect(auditOf(past(), oracle)).toMatchObject({ lost: 1 })
  })

  it('sees a screen that is shown an older board than before, or is left out of a record', () => {
    const oracle = oracleOfAll()
    oracle.sent('d1', {
      type: 'hello',
      protocol: 1,
      room: 'meadow',
      screen: 'hand',
      epoch: 1,
      version: 6,
    })
    oracle.told('d1', {
      type: 'welcome',
      protocol: 1,
      epoch: 1,
      nowMs: 0,
      speed: 1,
      device: null,
      laneN: null,
      names: {},
      state: { type: 'tail', records: [] },
    })
    const { version, atMs, events } = pick(7)
    const later = { version: 9, atMs, cause: { type: 'server' as const }, by: null }
    oracle.told('d1', { type: 'record', ...later, events: [] })
    expect([version, events.length]).toEqual([7, 1])
    expect(oracle.drain().wrongs).toEqual([
      'd1 knew 7 and was welcomed at 6',
      'd1 got version 9 after 6',
    ])
  })

  it('sees a heartbeat whose board is another', () => {
    const oracle = oracleOfAll()
    oracle.told('d1', { type: 'beat', nowMs: 0, version: 7, hash: 1, house: [] })
    expect(auditOf(past(), oracle).failures).toEqual([
      'the board in a heartbeat at version 7 is not the fold of the journal',
    ])
  })

  it('sees a name whose words are not in the private file, or other ones', () => {
    const file = join(sound, 'private.ndjson')
    const lines = readFileSync(file, 'utf8')
    writeFileSync(file, lines.replace('Ben', 'Bea'))
    expect(auditIn(sound, oracleOfAll()).failures).toEqual([
      'x2 is named and its words are not kept',
    ])
    rmSync(file)
    expect(auditIn(sound, oracleOfAll()).failures).toHaveLength(2)
  })

  it('keeps in mind what was sent and never answered', () => {
    const audit = new Audit(sound)
    const { answers, ...rest } = tellingOfAll()
    audit.take({ ...rest, answers: answers.slice(1) })
    expect(audit.unanswered).toEqual(['d1.1'])
  })
})
