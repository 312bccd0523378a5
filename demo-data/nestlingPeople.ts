// The people of the nestling room: all invented, with PINs that anyone may know. `p1` founds the room;
// the others are added by them, in this order.

import { signOffs } from '../shared/board/constants.ts'
import type { DemoPerson } from './demoRoom.ts'
import { person } from './ids.ts'

const gapeFed = ['gapeSyringe', 'insectTweezers'] as const

export const nestlingPeople: readonly [DemoPerson, ...DemoPerson[]] = [
  { name: 'Odile', role: 'permitHolder', signOffs, pin: '1357' },
  {
    name: 'Kwame',
    role: 'lead',
    signOffs: [...gapeFed, 'cropTube', 'assisted', 'fluids', 'mentor'],
    pin: '2468',
  },
  {
    name: 'Marit',
    role: 'volunteer',
    signOffs: [...gapeFed, 'cropTube', 'fluids', 'mentor'],
    pin: '3579',
  },
  { name: 'Jonas', role: 'volunteer', signOffs: gapeFed, pin: '4680' },
  { name: 'Priya', role: 'trainee', signOffs: ['gapeSyringe'], pin: '5791', mentor: person(3) },
  { name: 'Noor', role: 'vet', signOffs: ['fluids', 'medicines'], pin: '6802' },
  {
    name: 'Tomasz',
    role: 'lead',
    signOffs: [...gapeFed, 'cropTube', 'fluids', 'mentor'],
    pin: '7913',
  },
  {
    name: 'Ayla',
    role: 'volunteer',
    signOffs: [...gapeFed, 'cropTube', 'swiftHand', 'assisted', 'fluids', 'quarantine'],
    pin: '8024',
  },
  { name: 'Bram', role: 'volunteer', signOffs: gapeFed, pin: '9135' },
]
