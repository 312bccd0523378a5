// A file of lines, each a sealed JSON object, read back: the sound lines from the start, and what
// comes after them. A record is its line with the line feed; without it, it was never whole.
//
//   sound  sound  sound  | torn half      the rest holds nothing sound: a write cut short by a crash
//   sound  ??????  sound | ...            something sound after it: damage, never a torn end

/** How one kind of line is told sound, and how each begins, to find a sound one inside wreckage. */
export interface LineKind<T> {
  readonly opensWith: string
  /** What the line says, without its line feed; null when its seal is not right. */
  readonly read: (line: Uint8Array) => T | null
}

export interface SealedLines<T> {
  readonly sound: readonly T[]
  /** How many bytes of the file the sound lines take. */
  readonly soundBytes: number
  /** What follows them, or null when nothing does. */
  readonly rest: { readonly bytes: Uint8Array; readonly isBeforeSoundLine: boolean } | null
}

const lineFeed = 0x0a

/** The lines that end with their line feed, without it, one by one; `end` is where the next begins. */
export function* wholeLines(
  file: Uint8Array,
): Generator<{ readonly line: number; readonly bytes: Uint8Array; readonly end: number }> {
  let at = 0
  for (let line = 1; ; line += 1) {
    const end = file.indexOf(lineFeed, at)
    if (end === -1) return
    yield { line, bytes: file.subarray(at, end), end: end + 1 }
    at = end + 1
  }
}

export function readSealedLines<T>(file: Uint8Array, kind: LineKind<T>): SealedLines<T> {
  const sound: T[] = []
  let soundBytes = 0
  for (const { bytes, end } of wholeLines(file)) {
    const line = kind.read(bytes)
    if (line === null) break
    sound.push(line)
    soundBytes = end
  }
  const rest = file.subarray(soundBytes)
  if (rest.length === 0) return { sound, soundBytes, rest: null }
  return { sound, soundBytes, rest: { bytes: rest, isBeforeSoundLine: holdsSound(rest, kind) } }
}

/**
 * Whether a sound line begins anywhere after the first byte. Looked for by how lines open and not by
 * line feeds, because the damaged byte may be the line feed that kept two of them apart.
 */
function holdsSound<T>(rest: Uint8Array, kind: LineKind<T>): boolean {
  const bytes = Buffer.from(rest.buffer, rest.byteOffset, rest.byteLength)
  for (let at = bytes.indexOf(kind.opensWith, 1); at !== -1; ) {
    const end = bytes.indexOf(lineFeed, at)
    const line = bytes.subarray(at, end === -1 ? bytes.length : end)
    if (kind.read(line) !== null) return true
    at = bytes.indexOf(kind.opensWith, at + 1)
  }
  return false
}
