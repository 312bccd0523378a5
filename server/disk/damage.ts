// A file of ours that does not say what it should. Thrown on opening and caught at the start alone,
// which prints the sentence and stops: a damaged byte is never read as a different room.

/** `line` counts from 1; null when it is about the file as a whole. */
export class DamagedFile extends Error {
  readonly file: string
  readonly line: number | null
  readonly kind: string

  constructor(file: string, line: number | null, kind: string, sentence: string) {
    super(`${file}${line === null ? '' : `, line ${line}`}: ${sentence}`)
    this.name = 'DamagedFile'
    this.file = file
    this.line = line
    this.kind = kind
  }
}
