// Every English sentence of the desk and of nothing else. Whole sentences where a lead reads, single
// words in a table; what other screens say too stands in client/ui.

import type { RequestKind, SignOff } from '../../shared/board/constants.ts'
import type { EventOf } from '../../shared/board/events.ts'
import type { NotKnownWhich } from '../../shared/board/parts.ts'
import type { Round } from '../../shared/board/state.ts'
import { birdsWords, formerHelper, minutesWords, outcomeWords } from '../ui/words.ts'
import type { BroodProblem } from './broodInput.ts'
import type { PlanProblem } from './planInput.ts'
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
  looking: 'Looking for the room …',
  noRoom: 'Which room? Open the page with its name, as in /nursery/desk.',
  notPaired: 'This device could not be paired. Ask whoever keeps the server.',
  storeFailing: 'This device cannot keep records. Write on paper and tell the lead.',
  leads: (names: readonly string[]) =>
    names.length === 0
      ? 'Nobody leads now'
      : `${names.join(' and ')} ${names.length === 1 ? 'leads' : 'lead'}`,
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
  back: (time: string | null) => (time === null ? 'on a break' : `back ${time}`),
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

export const broodWords = {
  title: (label: string) => `Nest ${label}`,
  incubator: (label: string) => `incubator ${label}`,
  quarantined: 'Quarantined: fed last, then hands and tools are changed.',
  perhaps: (time: string, name: string) =>
    `Perhaps fed about ${time} by ${name}: look before you feed.`,
  twice: (time: string) => `Recorded twice, about ${time}: look before you feed.`,
  missing: (n: number) => `${n === 1 ? 'One bird' : `${n} birds`} not counted back.`,
  hold: (reason: string, name: string, time: string) =>
    `On hold: ${reason} (${name}). Look again ${time}.`,
  asked: (name: string, time: string) => `${name} is asked to take it, until ${time}.`,
  note: (note: string) => `It came with a note: “${note}”`,
  ask: 'Ask somebody …',
  askTitle: (label: string) => `Who is asked to take ${label}?`,
  askNobody: 'Nobody who may feed it is free.',
  holdNest: 'Hold …',
  lift: 'Lift the hold …',
  moveNest: 'Move the nest …',
  release: 'Release to feeding …',
  birds: 'Birds',
  bird: 'Bird',
  plan: 'Care plan',
  due: 'Due',
  feeds: 'Last three feeds',
  mass: 'Mass',
  acts: 'Actions',
  noPlan: 'no care plan yet',
  planLine: (label: string, technique: string, minutes: number) =>
    `${label}: ${technique}, every ${minutesWords(minutes)}`,
  noFeeds: 'none here yet',
  feed: (time: string, outcome: string, amount: string | null) =>
    amount === null ? `${time} ${outcome}` : `${time} ${outcome}, ${amount}`,
  planned: (amount: string) => `${amount} planned`,
  measured: (amount: string) => `${amount} measured`,
  amountHidden: 'Look first.',
  said: 'said',
  extra: 'extra',
  grams: (massMg: number) => `${Math.round(massMg / 100) / 10} g`,
  arrived: (grams: string) => `${grams} at arrival`,
  called: 'somebody trained is called',
  warming: 'warming',
  holdBird: 'Hold …',
  liftBird: 'Lift …',
  moveBird: 'Move …',
  rounds: 'Records',
  noRounds: 'Nothing has been recorded here yet.',
  correct: 'Correct …',
  otherNest: 'Another nest …',
  takeBack: 'Take back …',
  takenBack: 'taken back',
  movedTo: (label: string | null) => `put onto nest ${label ?? 'another'}`,
  standing: { current: '', late: 'came late', unclaimed: 'without a claim' } as Readonly<
    Record<Round['standing'], string>
  >,
  back: (n: number) => `${n} counted back`,
  doorNotSeen: 'door not seen shut',
  corrected: (n: number) => (n === 1 ? 'corrected once' : `corrected ${n} times`),
  notKnownWhich: ({ count, outcome }: NotKnownWhich) =>
    `${count} ${outcomeWords[outcome]}, not known which`,
  goneFromBirds: 'what each bird did is no longer kept here',
  marks: {
    notOnShift: 'not on shift',
    notSignedOff: 'not signed off',
    heldBird: 'a held bird was fed',
    settlingBird: 'a warming bird was fed',
    timeBounded: 'its time could not be right and was moved',
    tooQuick: 'very quick (only you see this)',
    mentorAway: 'mentor away',
  } as Readonly<Record<Round['marks'][number], string>>,
} as const

export const formWords = {
  why: 'Say why.',
  whyPick: 'Why: pick or type',
  choose: 'choose …',
  save: 'Save',
  wholeNest: (label: string) => `all of ${label}`,
  lookAgainIn: 'Look again in',
  holdTitle: (what: string) => `Do not feed ${what}`,
  holdSave: 'Hold',
  liftTitle: (what: string) => `Lift the hold on ${what}`,
  liftSave: 'Lift it',
  moveNestTitle: (label: string) => `Nest ${label} goes to which incubator?`,
  moveNestSave: 'Move it',
  noOtherIncubator: 'There is no other incubator.',
  moveBirdTitle: (bird: string) => `Where does ${bird} go?`,
  moveBirdSave: 'Move it',
  quarantineDecided: 'One of the two is in quarantine: I have decided that',
  noOtherNest: 'There is no other nest.',
  toNest: 'Nest',
  releaseTitle: (label: string) => `Release ${label} to feeding under which care plan?`,
  releaseSave: 'Release',
  correctTitle: (label: string, time: string) => `Correct the record of ${label}, ${time}`,
  correctHelp:
    'Only what you change is corrected; the first record is kept. A typed amount counts as measured.',
  correctSave: 'Correct it',
  outcomeOf: (bird: string) => `${bird}: what it did`,
  amountOf: (bird: string, unit: string) => `${bird}: how much, ${unit}`,
  unchanged: 'Nothing was changed.',
  unreadable: 'An amount cannot be read.',
  otherTitle: (label: string, time: string) =>
    `Which nest was really fed at ${time}, not ${label}?`,
  otherHelp: 'The record moves there; bands say which bird is which. Both nests are due anew.',
  otherSave: 'Put it there',
  takeBackTitle: (label: string, time: string) => `Take back ${label}, ${time}: was it fed?`,
  fedYes: 'Yes, it was fed',
  fedNo: 'No, it was not',
  fedUnknown: 'I do not know',
  saveAnswer: 'Save the answer',
} as const

export const peopleWords = {
  title: 'People',
  add: 'Add a person …',
  addTitle: 'A new person',
  addSave: 'Add',
  name: 'First name',
  nameMissing: 'A name is needed.',
  role: 'Role',
  signOffs: 'Sign-offs',
  shift: 'Shift',
  shifts: { off: 'off', on: 'on shift', break: 'on a break' },
  mentor: 'Mentor',
  mentorPress: 'Mentor …',
  mentorTitle: (name: string) => `Who answers for ${name}?`,
  mentorSave: 'Save',
  with: (name: string | null) => (name === null ? 'no mentor yet' : `with ${name}`),
  nobody: 'Nobody',
  acts: 'Actions',
  change: 'Change …',
  changeTitle: (name: string) => `${name}: sign-offs`,
  saveSignOffs: 'Save the sign-offs',
  code: 'New code',
  remove: 'Remove …',
  removeTitle: (name: string) => `Remove ${name}?`,
  removeHelp:
    'They can sign in no more. What they have in hand ends with a question to the lead. Records stay.',
  removeSave: 'Remove',
  codeTitle: (name: string) => `${name}’s one-time code`,
  codeHelp: (minutes: number) =>
    `Give it to them now: it is shown this once, lets them choose a PIN, and is good for ${minutesWords(minutes)}.`,
  codeDone: 'Done',
  notHere: 'not here',
  holderOnly: 'Only the permit holder changes who is here and what they are signed off for.',
} as const

export const planWords = {
  title: 'Care plans',
  add: 'New plan …',
  replace: 'Replace …',
  plan: 'Plan',
  how: 'How',
  when: 'When',
  amount: 'Amount',
  source: 'Source',
  used: 'Used by',
  nobody: 'nobody',
  usedBy: (birds: number, labels: readonly string[]) =>
    `${birdsWords(birds)} in ${labels.join(', ')}`,
  every: (minutes: number) => `every ${minutesWords(minutes)}`,
  at: (times: string) => `at ${times}`,
  early: (percent: number) => (percent === 0 ? 'never early' : `up to ${percent}\u00a0% early`),
  planned: (amount: string) => `${amount} planned`,
  cap: (amount: string) => `at most ${amount}`,
  noAmount: 'no amount',
  newTitle: 'A new care plan',
  replaceTitle: (label: string) => `In place of “${label}”`,
  replaceHelp: 'Every bird on the old plan is on the new one from then on.',
  startFrom: 'Start from',
  startMass: 'Birds weigh about, g',
  startPress: 'Fill in',
  label: 'What the plan is called',
  technique: 'How it is fed',
  everyMinutes: 'Every so many minutes',
  clockTimes: 'Or at clock times, as 7:00, 12:30',
  earlyPercent: 'May come early by, % of the interval',
  unit: 'Amounts in',
  plannedAmount: 'Planned a feed',
  capAmount: 'At most a feed',
  sourceOf: 'Where this comes from',
  save: 'Set this plan',
  holderOnly: 'Only the permit holder sets care plans.',
  from: (minutes: string, source: string) =>
    minutes === '' ? `open; ${source}` : `${minutes}; ${source}`,
  problems: {
    label: 'Say what the plan is called.',
    timing: 'Say how often: 5 minutes to 12 hours, or clock times.',
    clockTimes: 'The clock times cannot be read.',
    early: 'Early is 0 to 50 percent, whole.',
    amount: 'An amount cannot be read.',
    overCap: 'What is planned is more than the most.',
    source: 'Say where it comes from.',
  } as Readonly<Record<PlanProblem, string>>,
} as const

export const unitWords = { uL: 'mL', mg: 'g', pieces: 'pieces' } as const

export const roomWords = {
  title: 'Room',
  incubators: 'Incubators',
  addIncubator: 'Add an incubator …',
  addTitle: 'A new incubator',
  label: 'Its label',
  labelMissing: 'A label is letters and figures only.',
  add: 'Add',
  nests: (n: number) => (n === 1 ? '1 nest' : `${n} nests`),
  reading: (temp: string, humidity: string | null, time: string) =>
    humidity === null ? `${temp} °C at ${time}` : `${temp} °C, ${humidity} % at ${time}`,
  noReading: 'not read yet',
  settings: 'How rounds begin',
  startTapOn: 'Feeders tap “nest is open”: the time out of the heat is known.',
  startTapOff: 'Nobody taps “nest is open”: a visit counts from its claim.',
  useStartTap: 'Use the tap',
  dropStartTap: 'Do without the tap',
  holderOnly: 'Only the permit holder changes this.',
  hours: (open: string, close: string) => `Feeding hours ${open} to ${close}.`,
  allDay: 'Feeding goes on around the clock.',
  broods: 'Broods',
  admit: 'Admit a brood …',
  admitTitle: 'A brood whose care plan is known',
  admitHelp: 'A box nobody knows yet is put on the board from a handheld, and warms first.',
  nestLabel: 'Nest label',
  incubator: 'Incubator',
  species: 'Species, or its four-letter code',
  howMany: 'How many birds',
  bands: 'Bands, as red, blue',
  plan: 'Care plan',
  quarantined: 'In quarantine',
  admitSave: 'Admit',
  noPlan: 'Set a care plan first.',
  noIncubator: 'Add an incubator first.',
  problems: {
    howMany: 'One to twelve birds.',
    bands: 'No more bands than birds, each once, up to twelve letters.',
    species: 'Choose a species, or type its four letters.',
  } as Readonly<Record<BroodProblem, string>>,
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

/** Ready reasons; anything else may be typed. They are stored as they read. */
export const correctReasons = ['mistyped', 'another bird', 'amount measured afterwards']
export const otherNestReasons = ['another nest', 'wrong label read']

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
