// `npm run demo`: a server with the demo's rooms, and invented people who work them as sessions of their
// own, some of them badly. Ends after so many minutes, or when it is told to, and says what it saw.

import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { Crew, type Tally } from './crew/crew.ts'
import { type DemoOptions, helpText, readWords, WrongWords } from './crew/demoOptions.ts'
import { DemoServer } from './crew/demoServer.ts'
import { type DemoSignIn, demoRooms } from './demoRooms.ts'

/** Until the minutes are over, somebody ends the demo, or the server is gone. */
async function workingTime(options: DemoOptions, server: DemoServer): Promise<void> {
  const ending = new AbortController()
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => ending.abort())
  const untilMs = options.minutes === null ? null : performance.now() + options.minutes * 60_000
  while (!ending.signal.aborted && !server.hasEnded) {
    if (untilMs !== null && performance.now() >= untilMs) return
    await setTimeout(200)
  }
}

const pinsOf = (signIns: readonly DemoSignIn[]): string =>
  signIns.map(({ name, pin }) => `${name} ${pin}`).join(', ')

const addresses = (origin: string): string =>
  demoRooms
    .map(
      ({ id, title, signIns }) =>
        `${title}\n  wall      ${origin}/${id}/wall\n  handheld  ${origin}/${id}/hand\n  desk      ${origin}/${id}/desk\n  PINs      ${pinsOf(signIns)}`,
    )
    .join('\n')

async function demo(options: DemoOptions): Promise<number> {
  const own = options.rooms === null ? mkdtempSync(join(tmpdir(), 'broodboard-demo-')) : null
  const server = new DemoServer(options, options.rooms ?? own ?? '')
  try {
    const origin = await server.serves()
    const crews = []
    for (const room of demoRooms) {
      const { speed, seed } = options
      const crew = new Crew({ origin, room: room.id, speed, seed })
      await crew.enter(room.signIns)
      crew.work()
      crews.push(crew)
    }
    if (!options.isJson) {
      process.stdout.write(`${addresses(origin)}\nThe rooms are being worked. Ctrl-C ends it.\n`)
    }
    await workingTime(options, server)
    const faults = server.hasEnded ? ['the server ended by itself'] : []
    const tallies = []
    for (const crew of crews) tallies.push(await crew.leave())
    return say(options, tallies, faults)
  } finally {
    await server.end()
    if (own !== null) rmSync(own, { recursive: true, force: true })
  }
}

/** Exit code 0 only where no bird was fed twice unasked and nothing went wrong. */
function say(options: DemoOptions, tallies: readonly Tally[], more: readonly string[]): number {
  const sum = (of: (tally: Tally) => number) => tallies.reduce((all, tally) => all + of(tally), 0)
  const faults = [...more, ...tallies.flatMap((tally) => tally.faults)]
  const doubleFeeds = sum((tally) => tally.doubleFeeds)
  const told = { feeds: sum((tally) => tally.feeds), doubleFeeds, missed: sum((t) => t.missed) }
  for (const fault of faults) process.stderr.write(`fault: ${fault}\n`)
  const text = options.isJson
    ? JSON.stringify({ ...told, faults: faults.length })
    : `${told.feeds} birds fed, ${doubleFeeds} of them twice unasked, ${told.missed} feeds missed, ${faults.length} faults`
  process.stdout.write(`${text}\n`)
  return doubleFeeds === 0 && faults.length === 0 ? 0 : 1
}

try {
  const options = readWords(process.argv.slice(2))
  if (options === null) process.stdout.write(helpText)
  else process.exitCode = await demo(options)
} catch (error) {
  const isAboutWords =
    error instanceof WrongWords ||
    (error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS'))
  if (!isAboutWords) throw error
  process.stderr.write(`${error instanceof Error ? error.message : error}\n`)
  process.exitCode = 2
}
