// The words after `npm start --`, read strictly: a wrong one is a sentence, never a guess. Nothing is
// opened or looked at here; whether a folder can be written or a port is free shows when it is tried.

import { parseArgs } from 'node:util'
import { StartFailure } from './startFailure.ts'

export type StartOptions = {
  readonly roomsDir: string
  /** 0 lets the system choose one that is free. */
  readonly port: number
  /** The title of a room to make before serving, or null. */
  readonly newRoom: string | null
  /** How fast the room's clock runs against a real one. */
  readonly speed: number
  /** The rooms come out of a backup: screens that know more are to take the older board. */
  readonly isRestored?: true
}

const portMost = 65_535
/** Below the least a minute of the room takes ten; above the most the two-second heartbeat is too slow. */
const speedLimits = { least: 0.1, most: 100 } as const
const titleMax = 40

export const helpText = `broodboard: a live board for a room where nestling birds are fed by hand

npm start -- [options]
  --rooms DIR   where the rooms are kept (default ./rooms); made with two demo
                rooms when there is none
  --port N      port on this machine, 0 for any free one (default 7310)
  --new NAME    first make an empty room of that name with one permit holder,
                and print the one-time code of their first sign-in
  --speed X     how fast the room's clock runs, ${speedLimits.least} to ${speedLimits.most} (default 1)
  --restored    once, with rooms put back from a backup: screens take the older
                board, and handhelds bring again what they noted lately
  --help        this page
`

/** The options, or null where only the help was asked for. Throws a StartFailure with exit code 2. */
export function readStartOptions(words: readonly string[]): StartOptions | null {
  const values = parseWords(words)
  if (values.help) return null
  return {
    roomsDir: readRoomsDir(values.rooms),
    port: readPort(values.port),
    newRoom: values.new === undefined ? null : readTitle(values.new),
    speed: readSpeed(values.speed),
    ...(values.restored ? { isRestored: true as const } : {}),
  }
}

function parseWords(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      strict: true,
      allowPositionals: false,
      options: {
        rooms: { type: 'string', default: './rooms' },
        port: { type: 'string', default: '7310' },
        new: { type: 'string' },
        speed: { type: 'string', default: '1' },
        restored: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values
  } catch (error) {
    throw wrong(error instanceof Error ? firstSentence(error.message) : 'Unreadable options')
  }
}

/** Node's own message goes on to explain escaping in several sentences; the first says it all. */
const firstSentence = (message: string): string => message.split(/[.\n]/, 1)[0] ?? message

const wrong = (what: string): StartFailure =>
  new StartFailure(`${what}. Run "npm start -- --help" for the options.`, 2)

function readRoomsDir(text: string): string {
  if (text === '' || text.includes('\0')) throw wrong('--rooms needs a folder')
  return text
}

function readPort(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : -1
  if (port < 0 || port > portMost) throw wrong(`--port needs a whole number from 0 to ${portMost}`)
  return port
}

function readSpeed(text: string): number {
  const speed = /^\d{1,3}(\.\d{1,3})?$/.test(text) ? Number(text) : 0
  if (speed < speedLimits.least || speed > speedLimits.most) {
    throw wrong(`--speed needs a number from ${speedLimits.least} to ${speedLimits.most}`)
  }
  return speed
}

/** A title must leave a room id: the room stands in every path and in every record. */
function readTitle(text: string): string {
  const title = text.trim()
  if (title.length > titleMax) throw wrong(`--new needs a name of at most ${titleMax} characters`)
  if (roomIdOf(title) === null) throw wrong('--new needs a name that starts with a letter a to z')
  return title
}

/**
 * "Spring Nursery" is the room `spring-nursery`: lower case, accents dropped, whatever else as dashes.
 * Null where nothing is left that an address can begin with.
 */
export function roomIdOf(title: string): string | null {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 31)
  return /^[a-z]/.test(plain) ? plain : null
}
