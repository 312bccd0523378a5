// The people of the long room: invented, with PINs that anyone may know, and nobody of the nestling room
// among them.

import { signOffs } from '../shared/board/constants.ts'
import type { DemoPerson } from './demoRoom.ts'
import { person } from './ids.ts'

const gapeFed = ['gapeSyringe', 'insectTweezers'] as const
const tubeFed = [...gapeFed, 'cropTube'] as const

export const longRoomPeople: readonly [DemoPerson, ...DemoPerson[]] = [
  { name: 'Ilse', role: 'permitHolder', signOffs, pin: '1470' },
  { name: 'Rafael', role: 'lead', signOffs: [...tubeFed, 'fluids', 'mentor'], pin: '2581' },
  { name: 'Doro', role: 'vet', signOffs: ['fluids', 'medicines'], pin: '3692' },
  {
    name: 'Tariq',
    role: 'volunteer',
    signOffs: [...tubeFed, 'assisted', 'fluids', 'mentor'],
    pin: '4703',
  },
  {
    name: 'Solvei',
    role: 'volunteer',
    signOffs: [...gapeFed, 'swiftHand', 'hummingbird', 'fluids', 'quarantine'],
    pin: '5814',
  },
  { name: 'Emil', role: 'volunteer', signOffs: tubeFed, pin: '6925' },
  { name: 'Zofia', role: 'volunteer', signOffs: gapeFed, pin: '7036' },
  { name: 'Obi', role: 'volunteer', signOffs: gapeFed, pin: '8147' },
  { name: 'Lucia', role: 'volunteer', signOffs: gapeFed, pin: '9258' },
  { name: 'Hana', role: 'trainee', signOffs: ['gapeSyringe'], pin: '1593', mentor: person(4) },
]
