// The room's last records for the journal page: fetched while somebody looks at it, and again after the
// board has moved on; kept nowhere else. Bounded by what is asked for.

import { type Signal, signal } from '@preact/signals'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import type { Session } from '../session/session.ts'

/** As many as a lead reads down a page. */
const recordsShown = 120

export type Journal =
  | { readonly status: 'unread' }
  | { readonly status: 'read'; readonly records: readonly RecordFrame[] }
  | { readonly status: 'failed' }

export class JournalBook {
  readonly #session: Pick<Session, 'recentRecords' | 'snapshot'>
  readonly #journal: Signal<Journal> = signal<Journal>({ status: 'unread' })
  #isReading = false
  #readVersion = -1

  constructor(session: Pick<Session, 'recentRecords' | 'snapshot'>) {
    this.#session = session
  }

  /** What is known now; drawing it follows its changes. */
  get now(): Journal {
    return this.#journal.value
  }

  /** Called at every drawing of the page; asks only where the board has changed since it was read. */
  refresh(): void {
    const { version, liveness } = this.#session.snapshot()
    if (this.#isReading || version === this.#readVersion || liveness.status !== 'live') return
    this.#isReading = true
    void this.#read(version)
  }

  async #read(version: number): Promise<void> {
    const outcome = await this.#session.recentRecords(recordsShown)
    this.#isReading = false
    this.#readVersion = version
    if (outcome.status === 'done') {
      this.#journal.value = { status: 'read', records: outcome.records }
    } else if (this.#journal.value.status === 'unread') {
      this.#journal.value = { status: 'failed' }
    }
  }
}
