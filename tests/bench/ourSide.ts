// Ours: the built server in its own process, with walls as its screens and a handheld that claims a nest
// and gives it back. A wall counts when it has the record as an object: received, and parsed from its
// JSON. Both go through the real link of `client/session`; the boards are not folded here.

import { assert } from '../../shared/base/control.ts'
import type { NestId } from '../../shared/base/values.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { Hand, type HandParts } from './hand.ts'
import { Screen } from './screen.ts'
import { RollCall, type Side } from './side.ts'

/** The nest must be ready at any time: it is claimed and given back, and never fed. */
export type OurRoom = HandParts & { readonly nest: NestId }

export type OurSide = Side & { readonly lastRecord: () => RecordFrame }

export async function ourSide({ nest, ...room }: OurRoom, screens: number): Promise<OurSide> {
  const hand = await Hand.onShift(room)
  const { origin, room: id } = room
  const walls = await Promise.all(
    Array.from({ length: screens }, () => Screen.enter({ origin, room: id, screen: 'wall' })),
  )
  let rollCall: RollCall | null = null
  for (const { screen } of walls) {
    screen.hear = (frame) => {
      if (hand.isRecord(frame)) rollCall?.here()
    }
  }
  let last: RecordFrame | null = null
  const claimNo = () => {
    const claimed = last?.events.find((event) => event.type === 'NestClaimed')
    assert(claimed !== undefined, 'a claim that was granted is in its record')
    return claimed.claimNo
  }
  return {
    lastRecord() {
      assert(last !== null, 'somebody has claimed')
      return last
    },
    async claim() {
      rollCall = new RollCall(screens)
      const startedMs = performance.now()
      const everybody = rollCall.everybody.then(() => performance.now())
      const [record, endedMs] = await Promise.all([
        hand.give({ type: 'ClaimNest', v: 1, nest }),
        everybody,
      ])
      last = record
      rollCall = new RollCall(screens)
      await Promise.all([
        hand.give({ type: 'GiveBack', v: 1, nest, claimNo: claimNo() }),
        rollCall.everybody,
      ])
      return endedMs - startedMs
    },
    async close() {
      for (const { screen } of walls) screen.leave()
      hand.leave()
    },
  }
}
