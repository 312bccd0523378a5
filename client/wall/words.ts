// Every English sentence of the wall and of nothing else. The wall says little: a bare number is
// minutes, a number in a rounded square is an incubator, a number with + is a count.

import { unreachable } from '../../shared/base/control.ts'
import type { AlertLevel, WallAlert } from '../../shared/views/wallAlerts.ts'
import type { HouseCondition } from '../../shared/wire/frames.ts'
import { andList, capital, formerHelper } from '../ui/words.ts'

export const stripWords = {
  stop: 'stop',
  somebody: 'somebody',
  asked: (name: string) => `${name}?`,
  last: 'last',
  lookAt: (time: string) => `look ${time}`,
  lookNow: 'look now',
  noPlan: 'no plan',
  count: (n: number) => `+${n}`,
  noneLate: 'none late',
  late: (n: number) => `${n} late`,
  later: 'later',
  asItWas: ['as it was at', 'as at'],
  asleepUntil: (time: string) => [`asleep until ${time}`, `until ${time}`, ''] as const,
} as const

export const topWords = {
  noAlerts: 'No open alerts',
  page: (at: number, of: number) => `${at} of ${of}`,
  hasIt: (name: string | null) => `${name ?? formerHelper} has it`,
  sayAloud: 'Say the nest aloud, and write it on paper.',
  stillOpen: (items: readonly string[]) => `Still open then: ${andList(items)}.`,
} as const

export const footWords = {
  here: (here: number, free: number) =>
    here === 0 ? 'Nobody here' : `${here} here, ${free === 0 ? 'none' : free} free`,
  back: (name: string, time: string | null) => (time ? `${name} due back ${time}` : `${name} away`),
  unheard: (name: string) => `${name} not heard`,
  moreAway: (n: number, isMore: boolean) => `${n} ${isMore ? 'more ' : ''}away`,
  why: (label: string, reason: string) => `${label} ${reason}`,
  perhapsFed: (label: string, time: string) => `${label} perhaps fed ${time}`,
} as const

export const plainWords = {
  connecting: 'Looking for the room …',
  noIncubators: 'No incubator is on the board yet.',
} as const

export const darkWords = (time: string): string => `Closed until ${time}`

type Forms = readonly (readonly [string, string])[]

/** Incubators that no lane of this wall holds. */
export function secondWallForms(labels: readonly string[], most: number): Forms {
  const which = labels.length === 1 ? labels[0] : `${labels[0]} to ${labels.at(-1)}`
  return [
    [`Watch: incubator ${which} not on this wall`, `More than ${most} need a second wall`],
    [`Watch: ${which} not here`, 'Second wall needed'],
  ]
}

type HouseLines = { readonly level: AlertLevel; readonly forms: Forms }

/** What is wrong with the house itself: what it is, and what to do. */
export function houseLines(condition: HouseCondition, time: (atMs: number) => string): HouseLines {
  switch (condition.type) {
    case 'journalFailing': {
      const since = `Use paper. Since ${time(condition.sinceMs)}`
      return {
        level: 'now',
        forms: [
          ['Now: records are not saved', since],
          ['Now: not saved', since],
          ['Now: not saved', 'Use paper'],
        ],
      }
    }
    case 'clockJumped':
      return {
        level: 'soon',
        forms: [
          ["Soon: the server's clock jumped", 'Check the time'],
          ['Soon: clock', 'It jumped'],
        ],
      }
    case 'damageFound':
      return {
        level: 'soon',
        forms: [
          ['Soon: an old record is damaged', 'Tell whoever keeps the server'],
          ['Soon: old record', 'Tell the lead'],
        ],
      }
    default:
      return unreachable(condition)
  }
}

const birds = (n: number): string => (n === 1 ? '1 bird' : `${n} birds`)

/** What an alert is about, from the most words to the fewest. */
export function alertWords({
  kind,
  label,
  birds: missing,
}: WallAlert): readonly [string, ...string[]] {
  const at = label ?? ''
  switch (kind) {
    case 'help':
      return at === '' ? ['help wanted'] : [`help at nest ${at}`, `help at ${at}`, `help ${at}`]
    case 'fluids':
      return [`fluids for nest ${at}`, `fluids for ${at}`, `fluids ${at}`]
    case 'noDroppings':
      return [`nest ${at}, no droppings`, `${at}, no droppings`]
    case 'short':
      return [
        `nest ${at}, ${birds(missing)} not back`,
        `${at}, ${birds(missing)} not back`,
        `${at}, ${missing} not back`,
      ]
    case 'fedTwice':
      return [`nest ${at} fed twice?`, `${at} fed twice?`]
    case 'lookAgain':
      return [`look again at nest ${at}`, `look again at ${at}`]
    default:
      return unreachable(kind)
  }
}

/** What it is, where the label was said already. */
const bareWords: Readonly<Record<WallAlert['kind'], string>> = {
  help: 'help',
  fluids: 'fluids',
  noDroppings: 'no droppings',
  short: 'not all back',
  fedTwice: 'fed twice?',
  lookAgain: 'look again',
}

const levelWords = { now: 'Now', soon: 'Soon', watch: 'Watch' } as const

/** Where it is, who waits there or what to do, from the most words to the fewest. */
function alertPlace({ kind, incubatorLabel, waits }: WallAlert): readonly string[] {
  const where = incubatorLabel === null ? '' : `Incubator ${incubatorLabel}`
  if (kind === 'short') return [`${where}: watch the doors`, 'Watch the doors']
  if (kind === 'fedTwice') return [`${where}: look before you feed`, 'Look first']
  if (waits === null) return [where]
  if (where === '') return [`${waits} is waiting`, waits]
  return [`${where}, ${waits} is waiting`, `${where}, ${waits}`, where]
}

/** An alert in the band, as headline and line, from the most words to the fewest. */
export function alertForms(alert: WallAlert): Forms {
  const whats = alertWords(alert)
  if (alert.taken) {
    const who = topWords.hasIt(alert.taken.name)
    return whats.map((what) => [capital(what), who] as const)
  }
  const lead = levelWords[alert.level]
  const full = whats.flatMap((what) =>
    alertPlace(alert).map((place) => [`${lead}: ${what}`, place] as const),
  )
  // Beside a "Now" there is room for a few letters only.
  return alert.label === null || alert.level === 'now'
    ? full
    : [...full, [`${lead}: ${alert.label}`, bareWords[alert.kind]]]
}

/** The same, as one of a list read out after the link was lost. */
export const openThen = (alert: WallAlert): string => alertWords(alert)[0]
