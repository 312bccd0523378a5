// The journal's sentences about the room itself: its days, its people, what it works with.

import type { EventOf, EventType } from '../../shared/board/events.ts'
import { noticeLine } from '../ui/openWords.ts'
import { techniqueWords } from '../ui/words.ts'
import type { Lines } from './journalSay.ts'
import { signOffWords } from './words.ts'

const signOffList = (signOffs: EventOf<'SignOffsSet'>['signOffs']): string =>
  signOffs.length === 0 ? 'nothing' : signOffs.map((one) => signOffWords[one]).join(', ')

export const roomLines = {
  RoomFounded: ({ title }) => `The room ${title} began.`,
  RoomOpened: () => 'The server began to serve the room.',
  DayOpened: ({ day }) => `The day ${day.date} opened.`,
  DayClosed: () => 'The day closed.',
  CivilOffsetChanged: () => 'The clock on the wall was set.',
  PersonAdded: ({ person, signOffs }, say) =>
    `${say.person(person)} was added, signed off for ${signOffList(signOffs)}.`,
  SignOffsSet: ({ person, signOffs }, say) =>
    `${say.person(person)} is signed off for ${signOffList(signOffs)}.`,
  PersonRemoved: ({ person }, say) => `${say.person(person)} was removed.`,
  IncubatorAdded: ({ label }) => `Incubator ${label} was added.`,
  PlanSet: ({ plan, replaces }) =>
    `The care plan “${plan.label}” (${techniqueWords[plan.technique]}) was set${replaces ? ' in place of another' : ''}.`,
  RoomSet: ({ usesStartTap }) =>
    usesStartTap ? 'Feeders tap “nest is open” from now on.' : '“Nest is open” is tapped no more.',
  LeadTold: ({ why, nest, person }, say) =>
    `The lead was told: ${noticeLine[why](nest ? say.nest(nest) : '', person ? say.person(person) : '')}`,
  NoticeSeen: () => 'A notice to the lead was read.',
} satisfies Partial<Lines<EventType>>
