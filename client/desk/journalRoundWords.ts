// The journal's sentences about the round: claims, feeds, their mending, and doubts.

import type { EventOf, EventType } from '../../shared/board/events.ts'
import { tallyOf } from '../../shared/views/tally.ts'
import { birdsWords, cropWords, tallyWords } from '../ui/words.ts'
import type { JournalSay, Lines } from './journalSay.ts'
import { broodWords } from './nestWords.ts'

const claimEnds = {
  fed: 'is fed',
  partly: 'is fed in part',
  notFed: 'was not fed',
  givenBack: 'was given back',
  calledOff: 'was called off: somebody else fed it',
  lapsed: 'was not heard of again: its time ran out',
} as const

const stops = {
  held: 'the nest was put on hold',
  fedByOther: 'somebody else recorded a feed',
  perhapsFed: 'somebody may have fed it',
} as const

const doubtKinds = {
  silent: 'perhaps fed, and nobody has said',
  setAside: 'a record that did not fit',
  twice: 'recorded twice',
} as const

const doubtEnds = {
  recorded: 'a record came',
  said: 'somebody said',
  neverAnswered: 'it was never answered',
  takenBack: 'the record was taken back',
  looked: 'somebody looked',
  notTwice: 'it was not twice',
} as const

const asideWhy = {
  birdUnknown: 'the bird is not known',
  nestUnknown: 'the nest is not known',
  personRemoved: 'the person was removed',
  roundUnknown: 'the record it speaks of is not known',
  birdGone: 'the bird is gone',
  incubatorUnknown: 'the incubator is not known',
  boardFull: 'the board is full',
} as const

function recordedLine(event: EventOf<'RoundRecorded'>, say: JournalSay): string {
  const { nest, startedAtMs, answers, back, standing, isSaid, notKnownWhich } = event
  const also = [
    ...(standing === 'current' ? [] : [broodWords.standing[standing]]),
    ...(isSaid ? [broodWords.said] : []),
    ...(notKnownWhich ? [broodWords.notKnownWhich(notKnownWhich)] : []),
    ...(back === undefined ? [] : [broodWords.back(back)]),
  ]
  const what = tallyWords(tallyOf(answers.map(({ outcome }) => outcome)))
  const fed = `Nest ${say.nest(nest)} at ${say.time(startedAtMs)}: ${what}`
  return also.length === 0 ? `${fed}.` : `${fed} (${also.join(', ')}).`
}

export const roundLines = {
  NestClaimed: ({ nest, person, birds, extra }, say) =>
    `${say.person(person)} took nest ${say.nest(nest)}, ${birdsWords(birds.length)}${extra ? `: an extra feed, ${extra.reason}` : ''}.`,
  LeaseExtended: ({ nest, leaseEndsAtMs }, say) =>
    `More time for nest ${say.nest(nest)}, until ${say.time(leaseEndsAtMs)}.`,
  FeedStarted: ({ nest }, say) => `Nest ${say.nest(nest)} was opened.`,
  RoundRecorded: recordedLine,
  RoundMoved: ({ nest, toNest, reason }, say) =>
    `A record of nest ${say.nest(nest)} was put onto nest ${say.nest(toNest)}: ${reason}.`,
  RoundCorrected: ({ nest, answers, reason }, say) =>
    `A record of nest ${say.nest(nest)} was corrected for ${birdsWords(answers.length)}: ${reason}.`,
  RoundTakenBack: ({ nest }, say) => `A record of nest ${say.nest(nest)} was taken back.`,
  ClaimBirdsStruck: ({ nest, birds }, say) =>
    `${birdsWords(birds.length)} of nest ${say.nest(nest)} taken out of the claim.`,
  ClaimEnded: ({ nest, how }, say) => `Nest ${say.nest(nest)} ${claimEnds[how]}.`,
  StopCalled: ({ nest, why }, say) => `Stop at nest ${say.nest(nest)}: ${stops[why]}.`,
  DoubtRaised: ({ nest, kind, aboutAtMs, owner }, say) =>
    `Nest ${say.nest(nest)} is in doubt, about ${say.time(aboutAtMs)}: ${doubtKinds[kind]}${owner === null ? '' : `. ${say.person(owner)} is asked`}.`,
  DoubtShrunk: ({ nest, birds }, say) =>
    `The doubt on nest ${say.nest(nest)} is now about ${birdsWords(birds.length)}.`,
  DoubtEnded: ({ nest, how, said }, say) =>
    `The doubt on nest ${say.nest(nest)} is over: ${doubtEnds[how]}${said === undefined ? '' : ` ${said} were fed`}.`,
  BirdsLooked: ({ nest, looks }, say) =>
    `Crops of nest ${say.nest(nest)}: ${looks.map(({ bird, crop }) => `${say.bird(bird)} ${cropWords[crop]}`).join(', ')}.`,
  ReportSetAside: ({ nest, why }, say) =>
    `A record${nest ? ` of nest ${say.nest(nest)}` : ''} did not fit and is kept for review: ${asideWhy[why]}.`,
} satisfies Partial<Lines<EventType>>
