// The server's process: words in, a served house until it is told to end. The only place that prints,
// and the one place where a failed start becomes a sentence and an exit code.

import { startFailureOf } from './config/failureSentence.ts'
import { printedText } from './config/printed.ts'
import { helpText, readStartOptions, type StartOptions } from './config/startOptions.ts'
import { stderrLog } from './log/log.ts'
import { openHouse } from './openHouse.ts'

/** Closing flushes and takes a last snapshot; a disk that hangs longer than this keeps nobody waiting. */
const closeMaxMs = 15_000

const log = stderrLog()

async function run(options: StartOptions): Promise<void> {
  const ended = endSignal()
  const house = await openHouse(options, log)
  process.stdout.write(printedText(house.printed))
  log.info({ port: house.port, speed: options.speed }, 'serving')
  await ended
  setTimeout(() => process.exit(1), closeMaxMs).unref()
  await house.close()
  log.info({}, 'ended')
  process.exit(0)
}

/** Listened for before anything is opened, so that an early signal still closes what was. */
function endSignal(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGTERM', () => resolve())
    process.once('SIGINT', () => resolve())
  })
}

function fail(error: unknown, place: { roomsDir: string; port: number }): void {
  const failure = startFailureOf(error, place)
  process.exitCode = failure?.exitCode ?? 1
  if (failure === null) log.error({ err: error }, 'the start failed')
  else process.stderr.write(`broodboard: ${failure.message}\n`)
}

async function main(words: readonly string[]): Promise<void> {
  let place = { roomsDir: '', port: 0 }
  try {
    const options = readStartOptions(words)
    if (options === null) process.stdout.write(helpText)
    else {
      place = options
      await run(options)
    }
  } catch (error) {
    fail(error, place)
  }
}

await main(process.argv.slice(2))
