// Somebody removed from the room loses what let them in, now or at the next start.

import { describe, expect, it } from 'vitest'
import { forgetRemovedPeople } from '../../../server/access/removedPeople.ts'
import type { PersonId } from '../../../shared/base/values.ts'
import type { RoomEvent } from '../../../shared/board/events.ts'
import { type Board, emptyBoard, type Person } from '../../../shared/board/state.ts'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { keptLog } from '../quietLog.ts'

const mara = 'p1' as PersonId
const finn = 'p2' as PersonId

const person = (id: PersonId, isRemoved: boolean): Person => ({
  ...{ id, nameId: 'x1' as Person['nameId'], role: 'volunteer', signOffs: [], shift: 'off' },
  ...{ shiftSinceMs: 0, backAtMs: null, isRemoved, mentor: null },
  ...{
    actedAtMs: 0,
    unanswered: 0,
    tally: { sinceMs: 0, visits: 0, fed: 0, refused: 0, calls: 0 },
    unreachableSinceMs: null,
  },
})

function open(board: Board, forgetPerson: (person: PersonId) => Promise<void>) {
  const listeners: ((record: RecordFrame) => void)[] = []
  const { log, lines } = keptLog()
  const room = {
    id: 'larch',
    durable: { version: 1, board },
    subscribe: (tell: (record: RecordFrame) => void) => {
      listeners.push(tell)
      return () => listeners.splice(listeners.indexOf(tell), 1)
    },
  }
  const stop = forgetRemovedPeople(room, { hasPin: () => true, forgetPerson }, log)
  const tell = (...events: RoomEvent[]) => {
    const cause = { type: 'server' } as const
    const frame = { type: 'record', version: 2, atMs: 0, cause, by: null, events } as const
    for (const listener of listeners) listener(frame)
  }
  return { tell, stop, lines }
}

const removed: RoomEvent = { type: 'PersonRemoved', v: 1, person: mara }

describe('a removed person', () => {
  it('is forgotten as the record becomes durable, and nobody else is', () => {
    const forgotten: PersonId[] = []
    const { tell, stop } = open(emptyBoard, async (one) => {
      forgotten.push(one)
    })
    tell({ type: 'ShiftBegun', v: 1, person: finn, atMs: 0 }, removed)
    expect(forgotten).toEqual([mara])
    stop()
    tell(removed)
    expect(forgotten).toEqual([mara])
  })

  it('is forgotten at the start when a crash came in between', () => {
    const people = { [mara]: person(mara, true), [finn]: person(finn, false) }
    const forgotten: PersonId[] = []
    open({ ...emptyBoard, people }, async (one) => {
      forgotten.push(one)
    })
    expect(forgotten).toEqual([mara])
  })

  it('is told of in the log when the secrets cannot be written, and the room goes on', async () => {
    const { tell, lines } = open(emptyBoard, () => Promise.reject(new Error('disk full')))
    tell(removed)
    await Promise.resolve()
    await Promise.resolve()
    expect(lines.map(({ what }) => what)).toEqual([
      'the secrets of somebody removed could not be erased',
    ])
  })
})
