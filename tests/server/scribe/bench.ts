// A scribe on a bench: fake journal, private file and time around it, and one list in which everything
// that happens is written down in the order in which it happens.

import { Lanes } from '../../../server/lanes/lanes.ts'
import type { ScribeBugs } from '../../../server/scribe/plantedBugs.ts'
import type {
  Brain,
  Entry,
  JournalPort,
  PrivatePort,
  PrivateText,
} from '../../../server/scribe/ports.ts'
import { Scribe } from '../../../server/scribe/scribe.ts'
import type { Taken } from '../../../server/scribe/turn.ts'
import type { PrivateId } from '../../../shared/base/values.ts'
import type { Command } from '../../../shared/board/commands.ts'
import type { PrivateRef } from '../../../shared/board/parts.ts'
import type { HouseCondition, Names, RecordFrame } from '../../../shared/wire/frames.ts'
import { settled } from '../../support/fakeTimers.ts'
import { incubatorOf, nestOf, personOf, privateRef } from '../../support/roomBuilder.ts'
import { keptLog } from '../quietLog.ts'
import { FakeTime } from './fakeTime.ts'
import { noon, stubBoard, stubBrain } from './stubBrain.ts'

/** Each flush waits for `release`, or fails, as told; without being told it returns at once. */
export class Flushes {
  #gate: Promise<void> | null = null
  #open: (() => void) | null = null
  isFailing = false
  count = 0

  hold(): void {
    this.#gate = new Promise((open) => {
      this.#open = open
    })
  }

  async release(): Promise<void> {
    this.#open?.()
    this.#gate = null
    await settled()
  }

  async pass(): Promise<void> {
    this.count += 1
    if (this.#gate !== null) await this.#gate
    if (this.isFailing) throw new Error('EIO: sync')
  }
}

export class FakeJournal implements JournalPort {
  readonly flushes = new Flushes()
  readonly entries: Entry[] = []
  /** How many entries each flush carried. */
  readonly sizes: number[] = []
  readonly dayLabels: string[] = []
  readonly #story: string[]

  constructor(story: string[]) {
    this.#story = story
  }

  async append(entries: readonly Entry[], dayLabel: string): Promise<void> {
    for (const { version } of entries) this.#story.push(`written ${version}`)
    await this.flushes.pass()
    this.#story.push('flushed')
    this.sizes.push(entries.length)
    this.dayLabels.push(dayLabel)
    this.entries.push(...entries)
  }

  async readRecords({ from, to, limit }: { from: number; to: number; limit: number }) {
    const range = this.entries.filter(({ version }) => version >= from && version <= to)
    return range.slice(0, limit)
  }
}

export class FakePrivateFile implements PrivatePort {
  readonly flushes = new Flushes()
  readonly staged = new Map<PrivateId, PrivateText>()
  readonly kept = new Map<PrivateId, PrivateText>()
  readonly #story: string[]
  #last = 0

  constructor(story: string[]) {
    this.#story = story
  }

  stage(text: PrivateText): PrivateRef {
    this.#last += 1
    const ref = privateRef(this.#last)
    this.staged.set(ref.id, text)
    return ref
  }

  unstage(ref: PrivateRef): void {
    this.staged.delete(ref.id)
  }

  async flush(): Promise<void> {
    this.#story.push('private text written')
    await this.flushes.pass()
    this.#story.push('private text flushed')
    for (const [id, text] of this.staged) this.kept.set(id, text)
    this.staged.clear()
  }

  namesOf(refs: readonly PrivateRef[]): Names {
    return Object.fromEntries(refs.map(({ id }) => [id, { name: this.kept.get(id)?.name ?? '' }]))
  }
}

export type BenchOptions = {
  readonly brain?: Partial<Brain>
  readonly bugs?: ScribeBugs
  readonly speed?: number
  readonly time?: FakeTime
  readonly lanes?: Lanes
}

export function bench(options: BenchOptions = {}) {
  const story: string[] = []
  const { log, lines: logged } = keptLog()
  const frames: RecordFrame[] = []
  const failures: HouseCondition[] = []
  const time = options.time ?? new FakeTime(noon, options.speed ?? 1)
  const journal = new FakeJournal(story)
  const privateFile = new FakePrivateFile(story)
  const lanes = options.lanes ?? new Lanes()
  const scribe = new Scribe({
    durable: { board: stubBoard, version: 0, lastAtMs: 0 },
    ...{ lanes, journal, privateFile, clock: time, timers: time, log },
    brain: { ...stubBrain, ...options.brain },
    publish: (frame) => {
      story.push(`seen ${frame.version}`)
      frames.push(frame)
    },
    onFailure: (condition) => failures.push(condition),
    epoch: 1,
    speed: options.speed ?? 1,
    bugs: options.bugs ?? {},
  })
  const take = async (...parts: Parameters<typeof taken>) => {
    const command = taken(...parts)
    const answer = await scribe.take(command)
    story.push(`answered ${command.lane}.${command.n}`)
    return answer
  }
  return { scribe, take, story, logged, frames, failures, time, journal, privateFile, lanes }
}

/** A command just noted; device d2's is person p2's. */
export function taken(
  lane: string,
  n: number,
  body: Command,
  timing: Partial<Taken['timing']> = {},
): Taken {
  const device = lane.replace(/[a-z]$/, '')
  const by = personOf(Number(device.slice(1)))
  return { lane, n, device, by, timing: { notedAgoMs: 0, heardAtMs: noon, ...timing }, body }
}

export const claimNest = (nest: number): Command => ({
  type: 'ClaimNest',
  v: 1,
  nest: nestOf(nest),
})
export const giveBack = (nest: number): Command => ({
  ...{ type: 'GiveBack', v: 1, nest: nestOf(nest), claimNo: 1 },
})
export const weighed: Command = { type: 'Weighed', v: 1, bird: 'b1' as never, massMg: 12_000 }
/** A report that changes nothing on the stub's board. */
export const incubatorRead: Command = {
  ...{ type: 'IncubatorRead', v: 1, incubator: incubatorOf(1), tempDeciC: 330 },
}
export const brokenRule: Command = { type: 'MoreTime', v: 1, nest: nestOf(1), claimNo: 1 }
export const brokenEvent: Command = { type: 'BeginBreak', v: 1 }
export const withdrawal: Command = { type: 'Withdrawn', v: 1 }
export const addPerson = (name: string, role: 'volunteer' | 'vet' = 'volunteer'): Command => ({
  ...{ type: 'AddPerson', v: 1, role, signOffs: [], private: { name } },
})
