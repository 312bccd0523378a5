// The words after `npm run demo --`, read strictly: a wrong one is a sentence and exit code 2.

import { parseArgs } from 'node:util'

export const helpText = `broodboard demo: invented rooms, worked by invented people

npm run demo -- [options]
  --speed X      how fast the room's clock runs, 1 to 60 (default 10)
  --minutes N    real minutes to work, 1 to 720 (default: until Ctrl-C)
  --rooms DIR    where the rooms are kept (default: a folder of its own, removed at the end)
  --port N       port on this machine, 0 for any free one (default 7310)
  --seed N       which day it is: the same seed draws the same habits (default 1)
  --json         print the tally as one line of JSON and nothing else
  --help         this page
`

export type DemoOptions = {
  readonly speed: number
  readonly minutes: number | null
  readonly rooms: string | null
  readonly port: number
  readonly seed: number
  readonly isJson: boolean
}

export class WrongWords extends Error {}

function numberIn(option: string, text: string, least: number, most: number): number {
  const n = /^\d{1,6}(\.\d{1,3})?$/.test(text) ? Number(text) : Number.NaN
  if (!(n >= least && n <= most)) {
    throw new WrongWords(`${option} takes a number from ${least} to ${most}.`)
  }
  return n
}

function whole(option: string, text: string, least: number, most: number): number {
  const n = numberIn(option, text, least, most)
  if (!Number.isInteger(n)) throw new WrongWords(`${option} takes a whole number.`)
  return n
}

/** Null where only the help was asked for. */
export function readWords(words: readonly string[]): DemoOptions | null {
  const { values } = parseArgs({
    args: [...words],
    options: {
      speed: { type: 'string', default: '10' },
      minutes: { type: 'string' },
      rooms: { type: 'string' },
      port: { type: 'string', default: '7310' },
      seed: { type: 'string', default: '1' },
      json: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  })
  if (values.help) return null
  return {
    speed: numberIn('--speed', values.speed, 1, 60),
    minutes: values.minutes === undefined ? null : numberIn('--minutes', values.minutes, 0.1, 720),
    rooms: values.rooms ?? null,
    port: whole('--port', values.port, 0, 65_535),
    seed: whole('--seed', values.seed, 0, 999_999),
    isJson: values.json,
  }
}
