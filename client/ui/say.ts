// How a page that takes part says ids and times: by the board it shows, at the moment it is drawn.

import { emptyBoard } from '../../shared/board/state.ts'
import { nameOf } from '../../shared/views/names.ts'
import type { RoomSnapshot } from '../session/roomSnapshot.ts'
import { clockTime } from './clock.ts'
import { formerHelper, type Say } from './words.ts'

type Known = Pick<RoomSnapshot, 'board' | 'names'>

export const sayOf = (snapshot: () => Known): Say => ({
  time: (atMs) => clockTime((snapshot().board ?? emptyBoard).room, atMs),
  person: (person) => {
    const { board, names } = snapshot()
    return (board && nameOf(board, names, person)) ?? formerHelper
  },
  nest: (nest) => snapshot().board?.nests[nest]?.label ?? '',
})
