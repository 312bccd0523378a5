// The journal's sentences about people on shift and what they are asked: shifts, mentors, offers.

import type { EventType } from '../../shared/board/events.ts'
import type { Lines } from './journalSay.ts'

const offerEnds = {
  taken: 'took it',
  declined: 'said not this one',
  unanswered: 'did not answer',
  over: 'is asked no more',
} as const

export const handLines = {
  ShiftBegun: ({ person }, say) => `${say.person(person)} began a shift.`,
  ShiftEnded: ({ person }, say) => `${say.person(person)} ended the shift.`,
  BreakBegun: ({ person, backAtMs }, say) =>
    `${say.person(person)} went on a break${backAtMs === undefined ? '' : `, back ${say.time(backAtMs)}`}.`,
  BreakEnded: ({ person }, say) => `${say.person(person)} came back.`,
  MentorSet: ({ person, mentor }, say) =>
    mentor === null
      ? `${say.person(person)} has no mentor any more.`
      : `${say.person(mentor)} answers for ${say.person(person)}.`,
  PersonUnreachable: ({ person }, say) => `No screen of ${say.person(person)} is heard.`,
  PersonReachable: ({ person }, say) => `A screen of ${say.person(person)} is heard again.`,
  OfferMade: ({ nest, person }, say) =>
    `${say.person(person)} was asked to take nest ${say.nest(nest)}.`,
  OfferEnded: ({ nest, person, how }, say) =>
    `Asked for nest ${say.nest(nest)}, ${say.person(person)} ${offerEnds[how]}.`,
} satisfies Partial<Lines<EventType>>
