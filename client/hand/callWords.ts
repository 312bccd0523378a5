// The sentences of calls, offers, notices and of what a lead does in the round. Pieces are functions of
// data; whatever several screens say stands in client/ui/words.ts.

import { andList, birdsWords, minutesWords, orList } from '../ui/words.ts'

export const callWords = {
  help: 'Help',
  helpCalled: 'Help called',
  now: (name: string) => `Now, ${name}`,
  needsFluids: (label: string) => `Nest ${label} needs fluids`,
  needsDecision: (label: string) => `Nest ${label} needs a decision`,
  needsHelp: (name: string) => `${name} needs help`,
  youCalled: 'You called for help',
  where: 'Where',
  bird: 'Bird',
  seen: 'Seen',
  by: 'By',
  has: 'Has it',
  lastFeeds: 'Last feeds',
  noFeeds: 'none here yet',
  whereNest: (label: string, incubator: string) => `Nest ${label}, incubator ${incubator}`,
  whereAsk: 'Somewhere in the room: look up and ask.',
  oneOf: (birds: number) =>
    birds === 1 ? 'the only one there' : `one of ${birdsWords(birds)}, not known which`,
  byAt: (name: string, time: string) => `${name}, ${time}`,
  grams: (massMg: number) => `${Math.round(massMg / 100) / 10} g`,
  coming: 'I am coming',
  comingSmall: 'and the others are let off',
  cannot: 'I cannot',
  lost: 'Not live: your answer cannot be sent. Go there, or say it aloud.',
  resolve: 'It is dealt with',
  resolveSmall: 'and what became of it',
  passBack: 'Pass it back',
  fluidsGiven: 'Fluids given',
  toNest: (label: string) => `Open nest ${label}`,
  whatBecame: 'What became of it?',
  orWrite: 'Or in your own words',
  saveWords: 'Save these words',
  open: 'Open calls',
  count: (n: number) => (n === 0 ? 'none' : String(n)),
  noneOpen: 'Nobody is called.',
  noted: 'Help is noted here, not sent. Call out loud.',
  called: (names: readonly string[]) =>
    names.length === 0
      ? 'Help is called. Nobody here can be asked: call out loud.'
      : `Help is called: ${andList(names)}.`,
  isComing: (name: string) => `${name} is coming.`,
  calling: 'Calling …',
  undo: 'Undo',
  undoSmall: (seconds: number) => `${seconds} s left`,
  moreLines: (n: number) => `and ${n} more: see the open calls`,
  said: 'Said',
  askedWho: (names: readonly string[]) => `Asked: ${orList(names)}.`,
  askedNobody: 'Nobody here can be asked.',
  over: 'It is over',
  trained: (label: string, names: readonly string[]) =>
    names.length === 0
      ? `Nest ${label}: nobody here is signed off for fluids. Tell the lead.`
      : `Nest ${label}: somebody trained is called (${orList(names)}).`,
  decision: (label: string, names: readonly string[]) =>
    names.length === 0
      ? `Nest ${label}: no droppings, and nobody here can decide. Tell the lead.`
      : `Nest ${label}: no droppings. Called: ${orList(names)}.`,
  comingTo: (name: string, label: string) => `${name} is coming to nest ${label}.`,
  youHave: (what: string) => `You are called: ${what}`,
  view: 'Open',
  short: (label: string, missing: number) =>
    missing === 1
      ? `One bird of ${label} not seen: watch the doors.`
      : `${missing} birds of ${label} not seen: watch the doors.`,
  found: 'Found',
} as const

export const offerWords = {
  asked: (label: string) => `Can you take ${label}?`,
  askedBy: (name: string, label: string) => `${name} asks: can you take ${label}?`,
  stands: (seconds: number) => `asked of you for ${seconds} s more`,
  notThis: 'Not this one',
  notThisSmall: 'the next person is asked',
} as const

export const noticeWords = {
  title: 'For the lead',
  none: 'Nothing to read.',
  lines: (n: number) => `${n} for the lead to read`,
  read: 'Read',
  open: 'Look',
  unread: (n: number) => (n === 0 ? 'all read' : `${n} to read`),
} as const

export const leadWords = {
  title: (label: string) => `Nest ${label}`,
  press: 'Ask or move',
  pressSmall: 'for the lead',
  ask: 'Ask somebody',
  askSmall: 'to take this nest',
  askTitle: (label: string) => `Who is to take ${label}?`,
  askNobody: 'Nobody who may feed it is free.',
  isAsked: 'asked now',
  has: (label: string) => `has ${label}`,
  isOnBreak: 'on a break',
  noMentor: 'no mentor here',
  isBusy: 'not free',
  notSignedOff: 'no sign-off for it',
  mayHaveFed: 'asked whether they fed it',
  cannotTake: (labels: string) => `Not ${labels}:`,
  moveNest: 'Move the nest',
  moveNestSmall: 'to another incubator',
  moveNestTitle: (label: string) => `Nest ${label} goes to which incubator?`,
  isHere: 'it is here',
  moveBird: 'Move a bird',
  moveBirdSmall: 'to another nest',
  whichBird: (label: string) => `Which bird leaves ${label}?`,
  whichNest: (bird: string) => `Where does ${bird} go?`,
  nests: (n: number) => (n === 1 ? '1 nest' : `${n} nests`),
  inIncubator: (place: { readonly incubatorLabel: string; readonly isQuarantined: boolean }) =>
    place.isQuarantined ? 'in quarantine' : `incubator ${place.incubatorLabel}`,
  warming: 'warming, not released',
  decideTitle: (bird: string, label: string) => `Move ${bird} to ${label}?`,
  decideIn: (label: string) => `${label} is in quarantine. The bird then is too, and is fed last.`,
  decideOut: (label: string, from: string) =>
    `${from} is in quarantine, ${label} is not. Whatever the bird carries goes with it.`,
  decide: 'I have decided: move it',
  decideSmall: (label: string) => `it then stands under ${label}’s rule`,
  mentors: 'Mentors',
  mentorsTitle: 'Who learns with whom?',
  noTrainees: 'Nobody here is a trainee.',
  mentorOf: (name: string | null, isAway: boolean) =>
    name === null ? 'no mentor: may feed nothing' : `with ${name}${isAway ? ', not here now' : ''}`,
  mentorTitle: (name: string) => `Who answers for ${name}?`,
  nobodyAnswers: 'Nobody',
  mentorHere: 'here now',
  mentorAway: 'not here now',
  noMentors: 'Nobody is signed off as a mentor.',
} as const

export const shiftWords = {
  mentorAway: (name: string) => `${name}, your mentor, is not here.`,
  noMentor: 'You have no mentor yet.',
  mentorWhy: 'Until your mentor is on shift you feed nothing. Ask the lead.',
  breakTitle: 'Back in',
  minutes: (n: number) => minutesWords(n),
  backAt: (time: string) => `at ${time}`,
  noTime: 'I do not know',
  has: (label: string) => `has ${label}`,
  asked: (label: string) => `asked: ${label}`,
  called: 'called away',
  onBreak: (time: string | null) => (time === null ? 'on a break' : `due back ${time}`),
  endTitle: (name: string) => `Thank you, ${name}.`,
  end: 'End my shift',
  endSmall: 'and leave this device',
  since: (time: string) => `Since ${time}:`,
  visits: (n: number) => (n === 1 ? 'visit to a nest' : 'visits to nests'),
  calls: (n: number) => (n === 1 ? 'call answered' : 'calls answered'),
  fed: (n: number) => (n === 1 ? 'feed of a bird' : 'feeds of birds'),
  refused: (n: number) => (n === 1 ? 'refusal' : 'refusals'),
} as const
