// Every English sentence of the desk and of nothing else. Whole sentences where a lead reads, single
// words in a table; what other screens say too stands in client/ui.

import type { RequestKind, SignOff } from '../../shared/board/constants.ts'
import type { EventOf } from '../../shared/board/events.ts'
import { andList, birdsWords, formerHelper, minutesWords } from '../ui/words.ts'
import type { NestFilter, Tab } from './ui.ts'

export const signOffWords: Readonly<Record<SignOff, string>> = {
  gapeSyringe: 'syringe',
  insectTweezers: 'tweezers',
  cropTube: 'crop tube',
  swiftHand: 'swifts',
  hummingbird: 'hummingbirds',
  assisted: 'assisted',
  fluids: 'fluids',
  medicines: 'medicines',
  quarantine: 'quarantine',
  mentor: 'mentor',
}

export const tabWords: Readonly<Record<Tab, string>> = {
  nests: 'Nests',
  people: 'People',
  plans: 'Care plans',
  room: 'Room',
  journal: 'Journal',
}

export const filterWords: Readonly<Record<NestFilter, string>> = {
  late: 'Late',
  hands: 'In hands',
  coming: 'Coming',
  hold: 'On hold',
  all: 'All',
}

export const headWords = {
  live: 'Live',
  connecting: 'connecting …',
  leads: (names: readonly string[]) =>
    names.length === 0
      ? 'Nobody leads now'
      : `${andList(names)} ${names.length === 1 ? 'leads' : 'lead'}`,
  signOut: 'Sign out',
  beginShift: 'Begin my shift',
  endShift: 'End my shift',
  parts: 'Parts of the desk',
  asking: 'Asking …',
  notNow: 'not live: nothing can be asked now',
  cancel: 'Cancel',
  back: 'All nests',
} as const

export const signInWords = {
  title: 'Who is at the desk?',
  nobody: 'Nobody is on the board yet.',
  pin: 'PIN',
  pinOf: (name: string) => `${name}: your PIN`,
  codeOf: (name: string) => `${name}: your one-time code and a PIN of your own`,
  code: 'One-time code',
  newPin: 'A PIN of 4 to 8 figures',
  newPinAgain: 'The same PIN again',
  differ: 'The two PINs differ. Choose again.',
  enter: 'Enter',
  useCode: 'First time? Use a code',
  usePin: 'I have a PIN',
  other: 'Somebody else',
  signedIn: 'signed in here',
} as const

export const openWords = {
  title: 'Open',
  nothing: 'Nothing is open.',
  count: (n: number) => (n === 0 ? 'nothing' : String(n)),
  call: (kind: RequestKind, label: string | null, name: string) =>
    kind === 'help'
      ? `${name} needs help${label === null ? '' : ` at nest ${label}`}`
      : kind === 'fluids'
        ? `Nest ${label ?? '?'} needs fluids`
        : `Nest ${label ?? '?'}: no droppings`,
  incubator: (label: string) => `Incubator ${label}.`,
  bird: (name: string) => `Bird: ${name}.`,
  since: (time: string) => `Since ${time}.`,
  noteSays: (note: string) => `“${note}”`,
  askedOf: (n: number) =>
    n === 0 ? 'Nobody here can be asked.' : `Put to ${n === 1 ? 'one person' : `${n} people`}.`,
  hasIt: (name: string, time: string) => `${name} has it since ${time}.`,
  coming: 'I am going',
  putBack: 'Pass it back',
  resolve: 'Dealt with …',
  resolveTitle: 'What became of it?',
  resolveWords: 'In a few words',
  save: 'Save',
  short: (n: number, label: string) =>
    n === 1 ? `One bird of ${label} not seen` : `${n} birds of ${label} not seen`,
  watchDoors: 'Watch the doors.',
  found: 'Found',
  notice: (time: string, line: string) => `${time}: ${line}`,
  read: 'Read',
  perhaps: (label: string, time: string) => `${label}: perhaps fed about ${time}`,
  twice: (label: string, time: string) => `${label}: recorded twice, about ${time}`,
  aside: (label: string, time: string) => `${label}: a record of about ${time} did not fit`,
  asked: (name: string, time: string) => `Only ${name} is asked, since ${time}.`,
  askedAndOpen: (name: string, time: string) =>
    `${name}, asked at ${time}, has not said. Look before you feed.`,
  nobodyAsked: 'Nobody is left to ask. Do you know?',
  lookFirst: 'Look before you feed.',
  yours: 'It is yours to say: was it fed?',
  all: 'All',
  some: 'Some …',
  none: 'None',
  whichTitle: (label: string) => `Which birds of ${label} were fed?`,
  hold: (what: string) => `${what} on hold`,
  holdWhy: (reason: string, name: string) => `${reason} (${name}).`,
  lookAgain: (time: string) => `Look again ${time}.`,
  lookNow: (time: string) => `Look again: it was time at ${time}.`,
  arrival: (label: string, birds: number) => `${label}: ${birdsWords(birds)} warming`,
  arrivalLook: (time: string) => `Not to be fed. Look by ${time}.`,
  arrivalLookNow: (time: string) => `Not to be fed. The look was due at ${time}.`,
  lift: 'Lift …',
  toNest: (label: string) => `Nest ${label}`,
  waits: (n: number) =>
    `${n === 1 ? 'One record waits' : `${n} records wait`} on this device. They go by themselves.`,
  stuck: 'Not taken',
  again: 'Send again',
  drop: 'Drop it: it is on paper',
} as const

export const handsWords = {
  title: 'Hands',
  here: (n: number) => (n === 0 ? 'nobody here' : `${n} here`),
  free: 'free',
  claim: (label: string, minutes: number) => `${label}, ${minutesWords(minutes)}`,
  call: (kind: RequestKind, label: string | null) =>
    `${label ?? ''} ${kind === 'help' ? 'help' : kind === 'fluids' ? 'fluids' : 'droppings'}`.trim(),
  asked: (label: string) => `asked for ${label}`,
  back: (time: string | null) => (time === null ? 'on a break' : `due back ${time}`),
  mentorAway: 'mentor away',
  silent: (time: string) => `silent since ${time}`,
  unreachable: (time: string) => `no screen since ${time}`,
  with: (name: string | null) => (name === null ? 'no mentor' : `with ${name}`),
  off: (n: number) => `${n} off shift`,
  none: 'no sign-off',
  offShift: 'off shift',
} as const

export const nestWords = {
  nest: 'Nest',
  state: 'State',
  incubator: 'Incubator',
  species: 'Species',
  birds: 'Birds',
  every: 'Every',
  lastFed: 'Last fed',
  due: 'Due',
  hands: 'Hands',
  caption: 'Nests, trouble first, then the latest',
  order: 'trouble first, then the latest',
  noneSuch: 'No nest stands here now.',
  everyMinutes: (lo: number, hi: number) =>
    lo === hi ? minutesWords(lo) : `${lo} to ${hi} minutes`,
  late: (n: number) => `${minutesWords(n)} late`,
  dueNow: 'now',
  dueAt: (time: string) => time,
  stop: 'stop called',
  unplanned: 'no care plan',
  lookAt: (time: string) => `look ${time}`,
  askedName: (name: string) => `asked: ${name}`,
  holds: (name: string, minutes: number) => `${name}, ${minutesWords(minutes)}`,
  perhaps: 'perhaps fed',
  trouble: { help: 'help', fluids: 'fluids', noDroppings: 'no droppings', short: 'bird missing' },
  quarantined: 'quarantined',
  someHeld: (n: number) => `${n} on hold`,
  unknownSpecies: 'not known yet',
  stateNames: {
    late: 'late',
    veryLate: 'very late',
    due: 'due',
    soon: 'may be fed',
    later: 'fed',
    claimed: 'in hands',
    held: 'on hold',
    settling: 'warming',
    unplanned: 'no plan',
    trouble: 'trouble',
  },
} as const

export const journalPageWords = {
  title: 'Journal',
  small: 'the last lines, newest first',
  when: 'When',
  who: 'Who',
  what: 'What',
  reading: 'Reading …',
  failed: 'The journal could not be read now.',
  clock: 'the clock',
  server: 'the server',
  sensor: 'a sensor',
  nothing: 'A record that changed nothing.',
  formerNest: 'no longer here',
  formerBird: 'a bird no longer here',
  formerPlan: 'no longer in use',
  birdOf: (bird: string, label: string) => `${bird} of ${label}`,
} as const

export const nameOr = (name: string | null): string => name ?? formerHelper

/** Somebody is called, as the journal says it. */
export const callNames: Readonly<Record<RequestKind, string>> = {
  fluids: 'Fluids were called for',
  noDroppings: 'A decision was called for',
  help: 'Help was called',
}

export const routeWords: Readonly<Record<EventOf<'FluidsGiven'>['route'], string>> = {
  byMouth: 'by mouth',
  underSkin: 'under the skin',
  tube: 'by tube',
}
