// The sentences of the visit: warnings before it, the clock beside it, the count after it, and how a
// record of it is mended. Pieces are functions of data; what several screens say is in client/ui/words.ts.

import type { NotKnownWhich } from '../../shared/board/parts.ts'
import type { OutOfHeatLimit } from '../../shared/care/outOfHeat.ts'
import type { CropLook } from '../../shared/views/cropShown.ts'
import { minutesWords, outcomeWords } from '../ui/words.ts'

/** The reason kept with a record that was put on the nest really fed. */
export const wrongNest = 'another nest was fed'

/** "1 of 5 refused, not known which". */
export const whichWords = ({ outcome, count }: NotKnownWhich, brood: number): string =>
  `${count} of ${brood} ${outcome === 'some' ? 'took some' : outcomeWords[outcome]}, not known which`

const wentWithout: Readonly<Record<NotKnownWhich['outcome'], string>> = {
  some: 'took only some',
  refused: 'refused',
  notFed: 'not fed',
}

const stageWords: Readonly<Record<OutOfHeatLimit['stage'], string>> = {
  naked: 'naked',
  pinsOut: 'pins out',
  feathered: 'feathered',
}

export const cropCaption: Readonly<Record<CropLook, { filled: string; tooFull: string }>> = {
  songbird: { filled: 'good: stop', tooFull: 'too full' },
  dove: { filled: 'good: stop', tooFull: 'too full' },
}

export const visitWords = {
  out: (minutes: number) => `out ${minutes} min`,
  sinceClaim: (minutes: number) => `claimed ${minutes} min`,
  outLimits: (limits: readonly OutOfHeatLimit[]) =>
    `Out of the heat at most: ${limits
      .map(({ stage, mostMs }) => `${stageWords[stage]} ${minutesWords(mostMs / 60_000)}`)
      .join(', ')}.`,
  countedFromClaim: 'Counted from your claim.',
  twice: (first: string, second: string) =>
    `Recorded twice, ${first} and ${second}: look before you feed.`,
  hungry: (time: string, which: NotKnownWhich, brood: number) =>
    `${time}: ${which.count} of ${brood} ${wentWithout[which.outcome]}, not known which. Look: find ${which.count === 1 ? 'it' : 'them'}.`,
  unmarked: (brood: number) => `${brood} birds without bands: all are answered at once.`,
  notAll: 'Not all ate',
  notAllSmall: 'but not known which',
  notAllTitle: (label: string) => `${label}: how many did not?`,
  ofBrood: (count: number, brood: number) => `${count} of ${brood}`,
  allOf: (brood: number) => `all ${brood}`,
  notAllOutcomes: { refused: 'refused', some: 'took some', notFed: 'not fed' } satisfies Record<
    NotKnownWhich['outcome'],
    string
  >,
  lookFor: 'save, and look for it',
  missedBefore: (n: number, label: string) =>
    n === 1
      ? `One bird of ${label} was missing before this visit.`
      : `${n} birds of ${label} were missing before this visit.`,
  howMuchTaken: 'how much?',
  missing: (n: number, label: string) =>
    n === 1
      ? `One bird of ${label} not seen: watch the doors.`
      : `${n} birds of ${label} not seen: watch the doors.`,
  found: 'Found it',
  foundSmall: (brood: number) => `all ${brood} are here`,
  otherNest: 'Wrong nest',
  otherNestSmall: (label: string) => `I fed another, not ${label}`,
  otherNestTitle: (label: string, time: string) =>
    `Recorded on ${label} at ${time}. Which nest did you feed?`,
  mend: 'Mend',
  mendTitle: (label: string, time: string) => `Mend: ${label} at ${time}`,
  takeBack: 'Or take it back: was it fed?',
  movedTo: (label: string) => `was nest ${label}`,
  stillAsked: (label: string, time: string) => `Later: did you feed ${label} at about ${time}?`,
  stillMore: (n: number) => `and ${n} more`,
  fluids: 'Fluids given',
  fluidsTitle: (bird: string, label: string) => `Fluids for ${bird}, nest ${label}`,
  fluidsWhich: (label: string) => `Which bird of ${label} had fluids?`,
  fluidsAt: (time: string) => `fluids ${time}`,
  noVolume: 'No volume is suggested here: this room has entered no protocol.',
  which: 'Which fluid',
  how: 'How',
  routes: { byMouth: 'by mouth', tube: 'by tube', underSkin: 'under the skin' },
  warmed: 'Warmed',
  notWarmed: 'Not warmed',
  site: 'Where',
  howMuch: 'How much was given',
  ml: (digits: string) => `${digits === '' ? '–' : digits} mL`,
  gave: (digits: string) => `Gave ${digits} mL`,
  chooseFirst: 'choose the rest first',
  place: 'Sound',
} as const

/** Chosen, never typed; stored as they read. What is really used is the protocol's (from memory). */
export const fluidNames = ['isotonic', 'electrolyte drink', 'water', 'another'] as const
/** Where under the skin; from memory, the protocol of the room decides. */
export const fluidSites = ['left thigh', 'right thigh', 'between shoulders', 'elsewhere'] as const
