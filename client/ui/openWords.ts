// What is open in a room, said the same on every screen that takes part: why somebody is called, what
// became of a call, what the lead is told.

import type { NoticeReason, RequestKind } from '../../shared/board/constants.ts'
import type { Request } from '../../shared/board/state.ts'

/** Why somebody is called, as it is read out to whoever is to come. */
export const whyCalled: Readonly<Record<Request['why'], string>> = {
  refusedTwice: 'Refused two feeds running.',
  noDroppings: 'No droppings an hour after fluids.',
  byHand: 'Called by hand.',
}

/** Ready answers to "what became of it"; they are kept as they read. */
export const outcomesOfCalls: Readonly<Record<RequestKind, readonly string[]>> = {
  fluids: [
    'fluids given',
    'looked, no fluids needed',
    'warmed first, look again',
    'the vet is called',
  ],
  noDroppings: ['droppings seen now', 'released to feeding', 'fluids again', 'the vet is called'],
  help: ['done together', 'it was nothing', 'hold set', 'the vet is called'],
}

/** What a notice says, of then: it may be read when the nest has long been fed; the nest and the person it names are looked up by the page. */
export const noticeLine: Readonly<Record<NoticeReason, (nest: string, name: string) => string>> = {
  nobodySignedOff: (nest) => `Nest ${nest} was late, and nobody here was signed off for it.`,
  threeAsked: (nest) => `Nest ${nest} was late. Three were asked, nobody took it.`,
  lateTen: (nest) => `Nest ${nest} was ten minutes late.`,
  nobodyForRequest: (nest) =>
    nest === '' ? 'A call is put to nobody here.' : `Nest ${nest}: a call is put to nobody here.`,
  tooQuick: (nest, name) =>
    `${name}’s record of ${nest} was very quick. For you alone: ask kindly, and have it looked at.`,
  mentorGone: (nest, name) => `${name} has nest ${nest}, and their mentor has left.`,
  signOffGone: (nest, name) => `${name} has nest ${nest} without the sign-off for it.`,
}
