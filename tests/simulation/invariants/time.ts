// What the passing of time owes the room, whoever asks or does not ask.

import { decideTime, nextWakeAtMs } from '../../../shared/rules/time.ts'
import { heldOn, type Invariant, type Scene, type Sentences } from '../scene.ts'
import type { Seen } from '../witness.ts'

/** A record older than this when it is first seen was found on the disk by a server that came later. */
const learntMs = 5_000

export class TimeLeavesNothing implements Invariant {
  readonly number = 'round'
  readonly name = 'after every batch nothing is due, and nothing falls due before the next waking'

  step({ server }: Scene, { happened }: Seen): Sentences {
    const last = happened.at(-1)
    if (last === undefined || server.room === null) return []
    // A server that died in the middle of a batch leaves a part of it, and the next one does the rest.
    if (server.room.nowMs() - last.record.atMs > learntMs) return []
    const { after, record } = last
    const due = decideTime(after, record.atMs)
    if (due.length > 0) return [`at ${record.version} ${due.map(({ type }) => type)} was left due`]
    const wakeAtMs = nextWakeAtMs(after)
    return wakeAtMs !== null && wakeAtMs <= record.atMs
      ? [`at ${record.version} the next waking lies in the past`]
      : []
  }
}

export class HoldsAreLookedAtAgain implements Invariant {
  readonly number = 'round'
  readonly name = 'every hold has a look-again'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record }) =>
      record.events.flatMap((event) =>
        event.type === 'HoldSet' && !(event.hold.lookAgainAtMs > event.hold.setAtMs)
          ? [`a hold of record ${record.version} is never looked at again`]
          : [],
      ),
    )
  }
}

export class NoClaimIsStuck implements Invariant {
  readonly number = 19
  readonly name = 'after trouble no claim stands beyond its time'

  calm({ server }: Scene): Sentences {
    const { room } = server
    if (room === null) return ['the server is not up']
    const nowMs = room.nowMs()
    const { board } = room.durable
    return heldOn(board)
      .filter(({ held }) => Math.max(held.leaseEndsAtMs, board.room.openedAtMs + 60_000) < nowMs)
      .map(({ nest, held }) => `claim ${held.claimNo} of ${nest.id} is stuck`)
  }
}
