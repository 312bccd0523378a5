// The people of the demo room: all invented, with PINs that anyone may know. `p1` founds the room; the
// others are added by them, in this order.

import { type Role, type SignOff, signOffs } from '../shared/board/constants.ts'

export type DemoPerson = {
  readonly name: string
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  readonly pin: string
}

export const founder: DemoPerson = {
  name: 'Odile',
  role: 'permitHolder',
  signOffs,
  pin: '1357',
}

export const others: readonly DemoPerson[] = [
  {
    name: 'Kwame',
    role: 'lead',
    signOffs: ['gapeSyringe', 'insectTweezers', 'cropTube', 'assisted', 'fluids', 'mentor'],
    pin: '2468',
  },
  {
    name: 'Marit',
    role: 'volunteer',
    signOffs: ['gapeSyringe', 'insectTweezers', 'cropTube'],
    pin: '3579',
  },
  { name: 'Jonas', role: 'volunteer', signOffs: ['gapeSyringe', 'insectTweezers'], pin: '4680' },
  { name: 'Priya', role: 'trainee', signOffs: ['gapeSyringe'], pin: '5791' },
]
