// What nobody may take for good: a screen that hears nothing says so, and a server that cannot write
// says no more that it has.

import { secondMs } from '../../../shared/base/values.ts'
import type { Beat } from '../../../shared/wire/frames.ts'
import { heartbeatMs } from '../../../shared/wire/limits.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import type { Screen } from '../screen.ts'
import type { Seen } from '../witness.ts'

/** A device's own clock may run a little slow, and says so a little later. */
const silentMs = 10 * secondMs + 20

export class SilenceIsSaid implements Invariant {
  readonly number = 13
  readonly name = 'a screen that heard nothing for ten seconds says so'
  readonly isTimed = true

  step({ screens, queue, witness }: Scene): Sentences {
    let flaws = nothingWrong
    for (const screen of screens) {
      const heardMs = witness.lastFrameAtMs.get(screen.name) ?? 0
      const sinceMs = queue.nowMs - Math.max(heardMs, screen.loadedAtMs)
      if (sinceMs > silentMs && this.#saysNothing(screen)) {
        flaws = [...flaws, `${screen.name} heard nothing for ${sinceMs} ms and does not say so`]
      }
    }
    return flaws
  }

  /** A page that is still reading its own store shows no room at all. */
  #saysNothing({ watch }: Screen): boolean {
    return watch !== null && watch.snapshot().liveness.status !== 'notLive'
  }
}

/** From a failure to the alarm, and from one heartbeat to the next. */
const alarmWithinMs = 5 * secondMs

export class FailuresAreSaid implements Invariant {
  readonly number = 14
  readonly name = 'after a failed write nothing is acknowledged, and the heartbeat says why'
  readonly isTimed = true
  #life = 0
  #failedAtMs: number | null = null
  #openedAtMs = 0
  #isAlarmRaised = false

  step({ server, queue }: Scene, { told, beats, happened }: Seen): Sentences {
    if (server.life !== this.#life) this.#begin(server.life)
    const { failedAtMs } = server
    if (failedAtMs !== null && failedAtMs > this.#openedAtMs && this.#failedAtMs === null) {
      this.#failedAtMs = failedAtMs
      this.#isAlarmRaised = false
    }
    if (this.#failedAtMs === null || server.state !== 'live') return nothingWrong
    for (const beat of beats) this.#isAlarmRaised ||= isAlarm(beat)
    // It writes again only after it has been opened anew, and says so with a record.
    if (happened.some(({ record }) => record.events.some(({ type }) => type === 'RoomOpened'))) {
      this.#failedAtMs = null
      this.#openedAtMs = queue.nowMs
      return nothingWrong
    }
    return [...this.#acknowledged(told), ...this.#isSilent(queue.nowMs)]
  }

  #acknowledged(told: Seen['told']): Sentences {
    return told
      .filter(({ answer }) => answer.status === 'applied')
      .map(({ id }) => `${id} was acknowledged after a failed write`)
  }

  #isSilent(nowMs: number): Sentences {
    if (this.#isAlarmRaised || this.#failedAtMs === null) return nothingWrong
    const sinceMs = nowMs - this.#failedAtMs
    return sinceMs > alarmWithinMs ? ['no heartbeat says that writing has failed'] : nothingWrong
  }

  #begin(life: number): void {
    this.#life = life
    this.#failedAtMs = null
  }
}

const isAlarm = ({ house }: Beat): boolean => house.some(({ type }) => type === 'journalFailing')

/** A little less than the interval: the first beat of a room comes whenever it was opened. */
const beatsApartMs = heartbeatMs - 100

export class HeartbeatsKeepTime implements Invariant {
  readonly number = 13
  readonly name = 'a room has one heartbeat, and one voice for each record'
  #beatAtMs = Number.NEGATIVE_INFINITY
  #life = 0
  #toldVersion = 0

  step({ server, queue }: Scene, { beats, toldRecords }: Seen): Sentences {
    if (server.life !== this.#life) {
      this.#life = server.life
      this.#beatAtMs = Number.NEGATIVE_INFINITY
    }
    const flaws = beats.flatMap(() => {
      const apartMs = queue.nowMs - this.#beatAtMs
      this.#beatAtMs = queue.nowMs
      return apartMs < beatsApartMs ? [`two heartbeats came ${apartMs} ms apart`] : []
    })
    const again = toldRecords.filter(({ version }) => version <= this.#toldVersion)
    this.#toldVersion = Math.max(this.#toldVersion, ...toldRecords.map(({ version }) => version))
    return [...flaws, ...again.map(({ version }) => `record ${version} was told twice`)]
  }
}

export class ReadingGoesOn implements Invariant {
  readonly number = 14
  readonly name = 'a server that is up goes on telling the room, whether it can write or not'
  readonly isTimed = true
  #life = 0
  #beatAtMs = 0

  step({ server, queue, network }: Scene, { beats, welcomes }: Seen): Sentences {
    const isNew = server.life !== this.#life
    this.#life = server.life
    const isFirst = welcomes.length > 0 && network.watcherCount <= welcomes.length
    if (isNew || isFirst || server.state !== 'live' || server.isClosing || beats.length > 0) {
      this.#beatAtMs = queue.nowMs
    }
    const sinceMs = queue.nowMs - this.#beatAtMs
    if (sinceMs <= alarmWithinMs) return nothingWrong
    this.#beatAtMs = queue.nowMs
    // Nobody is told anything while nobody is there.
    if (network.watcherCount === 0) return nothingWrong
    return [`no heartbeat for ${sinceMs} ms from a server that is up`]
  }
}
