// The narrow port through which everything durable goes. `realDisk` is the machine's; the tests have
// one in memory that loses what was not synced and fails on demand. Durability is the caller's: a
// written byte is safe only after `sync`, a new or renamed name only after `syncDir`. Nothing is ever
// changed in place: files grow at the end or are written aside and renamed (`durable.ts`).

/** A file open for appending. One writer at a time; none of the calls is retried by the port. */
export interface OpenFile {
  /** Appends at the end. May write fewer bytes than given, without throwing; returns how many. */
  write(bytes: Uint8Array): Promise<number>
  /** Returns once what was written is on the medium. After it has thrown, nothing written is known. */
  sync(): Promise<void>
  close(): Promise<void>
}

export interface Disk {
  /** Names in a folder, sorted by code unit; an empty list where the folder is missing. */
  list(dir: string): Promise<readonly string[]>
  /** The whole file, or null where there is none. */
  read(path: string): Promise<Uint8Array | null>
  /** Opens for appending, creating the file (empty, its owner's alone) when it is missing. */
  openAppend(path: string): Promise<OpenFile>
  /** Within one folder; a file that stands at `to` is replaced in one step. */
  rename(from: string, to: string): Promise<void>
  /** Does nothing where there is no such file. */
  remove(path: string): Promise<void>
  /** Makes the folder and those above it (their owner's alone), and syncs the names. */
  makeDir(dir: string): Promise<void>
  /** Makes the names in a folder (created, renamed, removed) durable. */
  syncDir(dir: string): Promise<void>
}
