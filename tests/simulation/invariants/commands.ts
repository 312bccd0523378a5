// What becomes of a command: one effect and one answer, however often it is sent; none lost between a
// person's hand and the journal; none taken in that is never accounted for.

import type { OutboxContents, StuckEntry } from '../../../client/session/ports.ts'
import { isAsk } from '../../../shared/board/rights.ts'
import type { Board } from '../../../shared/board/state.ts'
import type { Answer } from '../../../shared/wire/frames.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import { commandId, type Seen } from '../witness.ts'

const answerText = (answer: Answer): string => JSON.stringify(answer)

export class OneEffectACommand implements Invariant {
  readonly number = 3
  readonly name = 'a command has at most one record'
  readonly #versionOf = new Map<string, number>()

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record: { cause, version } }) => {
      if (cause.type !== 'command') return []
      const id = commandId(cause.lane, cause.n)
      const before = this.#versionOf.get(id)
      this.#versionOf.set(id, before ?? version)
      return before === undefined ? [] : [`${id} is version ${before} and again ${version}`]
    })
  }
}

export class RepeatsGetTheirFirstAnswer implements Invariant {
  readonly number = 3
  readonly name = 'a repeat gets the first answer'
  readonly #first = new Map<string, { readonly answer: Answer; readonly life: number }>()
  readonly #versionOf = new Map<string, number>()

  step(_scene: Scene, { happened, told }: Seen): Sentences {
    for (const { record } of happened) {
      const { cause, version } = record
      if (cause.type === 'command') this.#versionOf.set(commandId(cause.lane, cause.n), version)
    }
    return told.flatMap(({ id, answer, life }) => {
      const first = this.#first.get(id)
      const isBound = first !== undefined && (first.life === life || this.#isRecorded(id, first))
      if (!isBound) this.#first.set(id, { answer, life })
      if (!isBound || answerText(first.answer) === answerText(answer)) return []
      if (isForgotten(answer) && !this.#versionOf.has(id)) return []
      return [`${id}: first ${answerText(first.answer)}, then ${answerText(answer)}`]
    })
  }

  /** What left no record is simply decided again by a server that was started anew. */
  #isRecorded(id: string, { answer }: { readonly answer: Answer }): boolean {
    return answer.status === 'applied' && this.#versionOf.get(id) === answer.version
  }
}

/**
 * A server that keeps the answer no longer says of a command without a record all that can truly be
 * said: that nothing came of it.
 */
const isForgotten = (answer: Answer): boolean =>
  answer.status === 'rejected' && answer.why.code === 'Withdrawn'

export class LanesAreContiguous implements Invariant {
  readonly number = 3
  readonly name = 'a lane is settled number by number'
  readonly #settled = new Map<string, number>()

  step(_scene: Scene, { settled }: Seen): Sentences {
    return settled.flatMap(({ id, outcome }) => {
      if (!('status' in outcome)) return []
      const [lane = '', text = ''] = id.split('.')
      const n = Number(text)
      const before = this.#settled.get(lane) ?? 0
      this.#settled.set(lane, Math.max(before, n))
      return n > before + 1 ? [`${id} was settled after ${lane}.${before}`] : []
    })
  }
}

export class NumbersMeanOneThing implements Invariant {
  readonly number = 3
  readonly name = 'a number is never sent with another body, save as a withdrawal'
  readonly #bodyOf = new Map<string, string>()

  step(_scene: Scene, { commands }: Seen): Sentences {
    return commands.flatMap(({ lane, n, by, body }) => {
      if (body.type === 'Withdrawn') return []
      const id = commandId(lane, n)
      const text = JSON.stringify([by, body])
      const before = this.#bodyOf.get(id)
      this.#bodyOf.set(id, before ?? text)
      return before === undefined || before === text ? [] : [`${id} was ${before} and is ${text}`]
    })
  }
}

export class ReportsAreNeverRejected implements Invariant {
  readonly number = 'round'
  readonly name = 'no report is rejected'
  readonly #withdrawn = new Set<string>()
  readonly #reports = new Set<string>()

  step(_scene: Scene, { commands, told }: Seen): Sentences {
    for (const { lane, n, body } of commands) {
      const id = commandId(lane, n)
      if (body.type === 'Withdrawn') this.#withdrawn.add(id)
      else if (!isAsk(body.type)) this.#reports.add(id)
    }
    return told.flatMap(({ id, answer }) => {
      const isReport = this.#reports.has(id) && !this.#withdrawn.has(id)
      return isReport && answer.status === 'rejected' ? [`${id}: ${answerText(answer)}`] : []
    })
  }
}

export class NothingNotedIsLost implements Invariant {
  readonly number = 4
  readonly name = 'what a device has kept is in the journal or still on the device, through reloads'
  readonly #recorded = new Set<string>()
  /** By device, the reports it keeps and no journal is known to have. */
  readonly #owed = new Map<string, Set<number>>()

  step(_scene: Scene, { happened, kept, stores }: Seen): Sentences {
    for (const { record } of happened) {
      if (record.cause.type !== 'command') continue
      const { lane, n } = record.cause
      this.#recorded.add(commandId(lane, n))
      this.#owed.get(lane)?.delete(n)
    }
    for (const { device, entry, insteadOf } of kept) {
      if (entry.kind !== 'report') continue
      this.#owedBy(device).add(entry.n)
      this.#owedBy(device).delete(Number(insteadOf?.split('.')[1]))
    }
    return stores.flatMap(({ device, contents }) => this.#missing(device, contents))
  }

  calm({ handhelds, reference }: Scene): Sentences {
    return handhelds.flatMap(({ name, session }) => {
      const left = leftByRemoved(reference.board, session?.snapshot().stuck ?? [])
      const owed = [...this.#owedBy(name)].filter((n) => !left.includes(n))
      return owed.length === 0 ? [] : [`${name} noted ${owed} and no record tells of it`]
    })
  }

  #missing(device: string, { entries, stuck }: OutboxContents): Sentences {
    const there = new Set([...entries.map(({ n }) => n), ...stuck.map(({ n }) => n)])
    return [...this.#owedBy(device)]
      .filter((n) => !there.has(n))
      .map((n) => `${device} has lost its note ${n}`)
  }

  #owedBy(device: string): Set<number> {
    const owed = this.#owed.get(device) ?? new Set<number>()
    this.#owed.set(device, owed)
    return owed
  }
}

/** What somebody noted who is not of the room any more, and the server will not take from here. */
export const leftByRemoved = (board: Board, stuck: readonly StuckEntry[]): readonly number[] =>
  stuck.filter(({ by }) => board.people[by]?.isRemoved).map(({ n }) => n)

export class WhatWaitsIsSeen implements Invariant {
  readonly number = 4
  readonly name = 'what waits on a device stands on its screen'
  readonly #answered = new Set<string>()

  step({ handhelds }: Scene, { heard, stores }: Seen): Sentences {
    for (const { frame } of heard) {
      if (frame.type === 'answer') this.#answered.add(commandId(frame.lane, frame.n))
    }
    return stores.flatMap(({ device, contents }) => {
      const snapshot = handhelds.find(({ name }) => name === device)?.session?.snapshot()
      if (snapshot === undefined || snapshot.board === null) return []
      const numbers = [...snapshot.pending, ...snapshot.stuck].map(({ n }) => n)
      const shown = new Set(numbers)
      return this.#waiting(device, contents)
        .filter((n) => !shown.has(n))
        .map((n) => `${device} waits with ${n} and does not show it`)
    })
  }

  /** A page knows of an answer before its store does, and after a store that failed. */
  #waiting(device: string, { entries, stuck }: OutboxContents): readonly number[] {
    const waiting = entries.filter(
      ({ kind, standing }) => kind === 'report' && standing.type === 'waiting',
    )
    return [...waiting, ...stuck]
      .map(({ n }) => n)
      .filter((n) => !this.#answered.has(commandId(device, n)))
  }
}

export class AnswersFollowTime implements Invariant {
  readonly number = 11
  readonly name = 'what was asked after an answer was told comes after it in the journal'
  readonly #toldWhenSent = new Map<string, number>()
  #told = 0

  step(_scene: Scene, { commands, heard, told }: Seen): Sentences {
    for (const { frame } of heard) {
      if (frame.type !== 'answer' || frame.answer.status !== 'applied') continue
      this.#told = Math.max(this.#told, frame.answer.version)
    }
    for (const { lane, n } of commands) {
      const id = commandId(lane, n)
      if (!this.#toldWhenSent.has(id)) this.#toldWhenSent.set(id, this.#told)
    }
    return told.flatMap(({ id, answer }) => {
      const leastVersion = this.#toldWhenSent.get(id) ?? 0
      if (answer.status === 'rejected' || answer.version >= leastVersion) return []
      return [`${id} became version ${answer.version}, and ${leastVersion} was told before it`]
    })
  }
}

export class ReceivedIsAccountedFor implements Invariant {
  readonly number = 18
  readonly name = 'received is applied, rejected, repeated, turned away or in flight'
  readonly #inFlight = new Map<string, number>()
  #life = 0

  step({ server }: Scene, { takenIn, settled }: Seen): Sentences {
    if (server.life !== this.#life) {
      // What a dead process had in hand is nobody's any more; its sender asks again.
      this.#inFlight.clear()
      this.#life = server.life
    }
    const flaws: string[] = []
    for (const { life, sequence } of takenIn) {
      if (life === this.#life) this.#inFlight.set(`${life} ${sequence}`, sequence)
    }
    for (const { life, sequence, id } of settled) {
      const wasThere = this.#inFlight.delete(`${life} ${sequence}`)
      if (life === this.#life && !wasThere) flaws.push(`${id} was settled twice`)
    }
    return flaws
  }

  calm(): Sentences {
    const { size } = this.#inFlight
    return size === 0 ? nothingWrong : [`${size} commands were taken in and never settled`]
  }
}

export class CorrectionsDeleteNothing implements Invariant {
  readonly number = 18
  readonly name = 'a round taken back or corrected still stands, and says so'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before, after }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'RoundTakenBack' && event.type !== 'RoundCorrected') return []
        const { nest, no } = event
        const was = before.nests[nest]?.rounds.find((round) => round.no === no)
        const is = after.nests[nest]?.rounds.find((round) => round.no === no)
        if (was === undefined) return []
        if (is === undefined) return [`round ${no} is gone from ${nest}`]
        const saysSo = event.type === 'RoundTakenBack' ? is.isTakenBack : is.corrections > 0
        return saysSo ? [] : [`round ${no} does not say that it was changed`]
      }),
    )
  }
}
