// The world's reasons for a failed start, as the one sentence a person reads. A reason that is not
// among them is a mistake of ours and keeps its stack. Called where a start, or one room of it, ends.

import { DamagedFile } from '../disk/damage.ts'
import { errorCode } from '../disk/realDisk.ts'
import { RoomRefused } from '../room/roomRefused.ts'
import { StartFailure } from './startFailure.ts'

/** Where the start had got to, as far as a sentence needs it. */
export type StartPlace = { readonly roomsDir: string; readonly port: number }

/** The sentence, or null where the error is none the world brings. */
export function startFailureOf(error: unknown, place: StartPlace): StartFailure | null {
  if (error instanceof StartFailure) return error
  if (error instanceof DamagedFile) {
    return new StartFailure(
      `A file of this room is damaged, and nothing was changed: ${error.message}. Restore the folder from a backup.`,
    )
  }
  if (error instanceof RoomRefused) {
    return new StartFailure(`A room cannot be served: ${error.message}.`)
  }
  const code = errorCode(error)
  const sentence = code === null ? null : sentenceFor(code, error, place)
  return sentence === null ? null : new StartFailure(sentence)
}

/** A port is listened on, a folder is written: which of them failed shows in the system call. */
function sentenceFor(code: string, error: unknown, { roomsDir, port }: StartPlace): string | null {
  const isListening = error instanceof Error && 'syscall' in error && error.syscall === 'listen'
  if (isListening && code === 'EADDRINUSE') {
    return `Port ${port} is in use by another program; choose another with --port, or 0 for any free one.`
  }
  if (isListening) return `Port ${port} cannot be listened on here (${code}).`
  switch (code) {
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `The rooms folder ${roomsDir} cannot be written (${code}).`
    case 'ENOTDIR':
    case 'EEXIST':
    case 'ENOTEMPTY':
      return `The rooms folder ${roomsDir} cannot be made: a file stands in its way (${code}).`
    case 'ENOENT':
      return `The rooms folder ${roomsDir} cannot be made there (${code}).`
    case 'ENOSPC':
    case 'EDQUOT':
      return `The disk that holds ${roomsDir} is full (${code}).`
    case 'EIO':
      return `The disk that holds ${roomsDir} failed (${code}).`
    default:
      return null
  }
}
