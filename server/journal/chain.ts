// Going along the chain, record by record: each must follow from the one before it. Used on opening,
// for reading pages and by the scrub; what a broken link means is for them to say.

import { JournalDamage, type JournalDamageKind } from './damage.ts'
import { type JournalRecord, type RecordBody, readBody, type SealedRecord } from './record.ts'

/** Checks what the records tell; throws on a kind it does not know. The journal knows no events. */
export type ParseEvents<E> = (raw: unknown) => readonly E[]

/** What every record of one journal must agree with. */
export interface ChainRules<E> {
  readonly room: string
  readonly parseEvents: ParseEvents<E>
}

/** The last record passed; `hash` is null where reading began in the middle and it is not known. */
export interface Link {
  readonly version: number
  readonly epoch: number
  readonly hash: string | null
}

export interface LinePlace {
  readonly file: string
  readonly line: number
}

/** The next link, by the chain alone: cheap, and enough for records that a snapshot already holds. */
export function nextLink(link: Link, sealed: SealedRecord, place: LinePlace): Link {
  if (link.hash !== null && sealed.prev !== link.hash) {
    throw new JournalDamage(place.file, place.line, 'brokenChain')
  }
  return { version: link.version + 1, epoch: link.epoch, hash: sealed.hash }
}

/** The record itself, when it follows `link` and says nothing this program does not know. */
export function readRecord<E>(
  link: Link,
  { sealed, ...place }: LinePlace & { readonly sealed: SealedRecord },
  rules: ChainRules<E>,
): JournalRecord<E> {
  const refuse = (kind: JournalDamageKind) => new JournalDamage(place.file, place.line, kind)
  nextLink(link, sealed, place)
  const body = readBody(sealed)
  if (body === null) throw refuse('unknownFormat')
  const wrong = wrongWith(body, link, rules.room)
  if (wrong !== null) throw refuse(wrong)
  const events = parsed(body.events, rules.parseEvents)
  if (!events.ok) throw Object.assign(refuse('unknownEvent'), { cause: events.cause })
  return { ...body, events: events.value }
}

function wrongWith(body: RecordBody, link: Link, room: string): JournalDamageKind | null {
  if (body.room !== room) return 'wrongRoom'
  if (body.version !== link.version + 1) return 'versionGap'
  return body.epoch < link.epoch ? 'epochBack' : null
}

type Parsed<E> =
  | { readonly ok: true; readonly value: readonly E[] }
  | { readonly ok: false; readonly cause: unknown }

function parsed<E>(raw: unknown, parseEvents: ParseEvents<E>): Parsed<E> {
  try {
    return { ok: true, value: parseEvents(raw) }
  } catch (cause) {
    return { ok: false, cause }
  }
}
