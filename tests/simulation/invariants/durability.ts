// What was said is on the medium, and stays there: every answer, every record a screen was shown, every
// name a record speaks of. Held against the bytes themselves, at the moment they were spoken of and
// again after every death.

import { DamagedFile } from '../../../server/disk/damage.ts'
import type { Room } from '../../../server/room/room.ts'
import { isAsk } from '../../../shared/board/rights.ts'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { printOf } from '../boardPrint.ts'
import { recordsOnDisk } from '../durableJournal.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import { commandId, type Seen } from '../witness.ts'

export class ToldIsDurable implements Invariant {
  readonly number = 2
  readonly name = 'what is answered or shown is already beyond any loss of power'

  step({ journal, server, damagedFiles }: Scene, { told, toldRecords }: Seen): Sentences {
    if (told.length === 0 && toldRecords.length === 0) return nothingWrong
    const answered = told.flatMap(({ answer }) =>
      answer.status === 'applied' ? [answer.version] : [],
    )
    const most = Math.max(0, ...answered, ...toldRecords.map(({ version }) => version))
    const sure = most === 0 ? 0 : journal.sureVersion(server.disk, damagedFiles())
    return most > sure ? [`version ${most} was told, and only ${sure} is sure`] : nothingWrong
  }
}

export class AnswersNameTheirRecord implements Invariant {
  readonly number = 2
  readonly name = 'an answer names the version at which its command stands in the journal'
  readonly #versionOf = new Map<string, number>()
  readonly #reports = new Set<string>()

  step({ reference }: Scene, { happened, told, commands }: Seen): Sentences {
    for (const { lane, n, body } of commands) {
      if (body.type !== 'Withdrawn' && !isAsk(body.type)) this.#reports.add(commandId(lane, n))
    }
    for (const { record } of happened) {
      const { cause, version } = record
      if (cause.type === 'command') this.#versionOf.set(commandId(cause.lane, cause.n), version)
    }
    return told.flatMap(({ id, answer }) => {
      if (answer.status === 'rejected') return []
      const version = this.#versionOf.get(id)
      if (version !== undefined && version !== answer.version) {
        return [`${id} was said to be version ${answer.version} and is ${version}`]
      }
      if (version === undefined && this.#reports.has(id)) return [`${id} has left no record`]
      return answer.version > reference.version ? [`${id} was said to be beyond the journal`] : []
    })
  }
}

const textOf = ({ version, atMs, cause, by, events }: Omit<RecordFrame, 'type' | 'names'>) =>
  JSON.stringify([version, atMs, cause, by, events])

export class ThePastSurvives implements Invariant {
  readonly number = 2
  readonly name = 'every record that was told is on what a dead server leaves behind'

  died({ server, reference }: Scene): Sentences {
    const found = recordsOnDisk(server.disk)
    for (let version = 1; version <= reference.version; version += 1) {
      const known = reference.recordAt(version)
      const record = found[version - 1]
      if (record === undefined) return [`version ${version} of ${reference.version} is gone`]
      const text = JSON.stringify([
        ...[record.version, record.atMs, record.cause, record.by, record.events],
      ])
      if (known === undefined || textOf(known) !== text) return [`version ${version} has changed`]
    }
    return nothingWrong
  }
}

export class NamesAreKept implements Invariant {
  readonly number = 2
  readonly name = 'a record never names a private text that is not on the medium'

  step({ server }: Scene, { happened }: Seen): Sentences {
    const ids = happened.flatMap(({ record }) => privateIds(record))
    if (ids.length === 0) return nothingWrong
    const file = [...server.disk.sureFiles].find(([path]) => path.endsWith('private.ndjson'))
    const text = file === undefined ? '' : Buffer.from(file[1].sureBytes).toString()
    return ids.filter((id) => !text.includes(`{"id":"${id}"`)).map((id) => `${id} is not kept`)
  }
}

const privateIds = ({ events }: RecordFrame): readonly string[] =>
  events.flatMap((event) => {
    if (event.type === 'PersonAdded') return [event.name.id]
    if ((event.type === 'NestOpened' || event.type === 'BirdSeen') && event.note) {
      return [event.note.id]
    }
    return []
  })

export class OpenedAsItWas implements Invariant {
  readonly number = 5
  readonly name = 'a room opened from a snapshot and its tail is the fold of all its records'

  opened({ reference }: Scene, room: Room): Sentences {
    const { version, board } = room.durable
    const print = reference.printAt(version)
    if (version < reference.version) return [`opened at ${version} of ${reference.version}`]
    if (print === undefined) return [`opened at ${version}, which is not on disk`]
    return printOf(board) === print ? nothingWrong : [`another board stands at ${version}`]
  }
}

export class DamageIsNamed implements Invariant {
  readonly number = 15
  readonly name = 'a damaged byte gives the right board or a refusal that names the file'

  refused({ damagedFiles, server }: Scene, error: unknown): Sentences {
    if (!(error instanceof DamagedFile)) {
      return server.failedAtMs === null ? [`refused for no reason: ${error}`] : nothingWrong
    }
    const isNamed = damagedFiles().includes(error.file)
    return isNamed ? nothingWrong : [`refused with no such damage: ${error.message}`]
  }
}
