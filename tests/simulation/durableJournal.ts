// The journal as it stands on the simulated disk, read by code of the tests: what is sure to survive
// any loss of power, and everything a restart would find. Which version is durable right now is asked
// each time somebody is told something, so only what was added is read.

import { type DiskRecord, readLine } from '../faults/journalOnDisk.ts'
import type { FakeDisk } from '../support/fakeDisk.ts'
import type { FakeFile } from '../support/fakeMedium.ts'

const lineFeed = 0x0a
const isJournal = (path: string): boolean => path.endsWith('.journal')

type Reading = { readonly file: FakeFile; readBytes: number; version: number }

export class DurableJournal {
  #readings = new Map<string, Reading>()

  /**
   * The version of the last record that no loss of power can take; 0 where there is none. In files the
   * simulation has damaged on purpose a line that cannot be read is passed over: it was sure once.
   */
  sureVersion(disk: FakeDisk, damaged: readonly string[] = []): number {
    let version = 0
    const files = [...disk.sureFiles].filter(([path]) => isJournal(path))
    for (const [path, file] of files.sort(([a], [b]) => (a < b ? -1 : 1))) {
      version = Math.max(version, this.#readOn(path, file, damaged.includes(path)))
    }
    return version
  }

  #readOn(path: string, file: FakeFile, isDamaged: boolean): number {
    const before = this.#readings.get(path)
    const reading = before?.file === file ? before : { file, readBytes: 0, version: 0 }
    this.#readings.set(path, reading)
    const bytes = file.sureBytes
    if (bytes.length < reading.readBytes) return reading.version
    for (;;) {
      const end = bytes.indexOf(lineFeed, reading.readBytes)
      if (end === -1) return reading.version
      const record = readLine(Buffer.from(bytes.subarray(reading.readBytes, end)))
      if (record === null && !isDamaged) return reading.version
      reading.readBytes = end + 1
      reading.version = record?.version ?? reading.version
    }
  }
}

/** Every sound record a restart would find, in order, up to the first line that is not sound. */
export function recordsOnDisk(disk: FakeDisk): readonly DiskRecord[] {
  const records: DiskRecord[] = []
  const files = [...disk.files].filter(([path]) => isJournal(path))
  for (const [, bytes] of files.sort(([a], [b]) => (a < b ? -1 : 1))) {
    let at = 0
    for (let end = bytes.indexOf(lineFeed); end !== -1; end = bytes.indexOf(lineFeed, at)) {
      const record = readLine(Buffer.from(bytes.subarray(at, end)))
      if (record === null) return records
      records.push(record)
      at = end + 1
    }
  }
  return records
}
