// The sentences of an opened nest and of the forms about it.

import type { NotKnownWhich } from '../../shared/board/parts.ts'
import type { Round } from '../../shared/board/state.ts'
import { minutesWords, outcomeWords } from '../ui/words.ts'

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

/** Ready reasons; anything else may be typed. They are stored as they read. */
export const correctReasons = ['mistyped', 'another bird', 'amount measured afterwards']
export const otherNestReasons = ['another nest', 'wrong label read']
