// Every way in which a journal can be other than we wrote it, each with its name and its sentence. A
// torn end is not among them: that is what a crash leaves, and it is cut off and kept.

import { DamagedFile } from '../disk/damage.ts'

const sentences = {
  badLine: 'a record is damaged, and others follow it',
  brokenChain: 'the record does not follow from the one before it',
  versionGap: 'records are missing before it',
  wrongRoom: 'the record is of another room',
  epochBack: 'the record says an earlier epoch than the one before it',
  unknownFormat: 'the record was written by a newer program',
  unknownEvent: 'the record tells of something this program does not know',
  misnamedFile: 'the name is not that of a journal of one day',
  tornBeforeEnd: 'the file ends in the middle of a record, and a later file goes on',
  behindSnapshot: 'the journal ends before the version it is known to have reached',
  otherHistory: 'the journal holds another record at the version it is known to have reached',
} as const

export type JournalDamageKind = keyof typeof sentences

export class JournalDamage extends DamagedFile {
  override readonly kind: JournalDamageKind

  constructor(file: string, line: number | null, kind: JournalDamageKind) {
    super(file, line, kind, sentences[kind])
    this.name = 'JournalDamage'
    this.kind = kind
  }
}
