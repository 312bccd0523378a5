// Random walks of a room through commands, waiting, closed and killed servers, power cuts and failing
// disks. Whatever happened, the board is the fold of all its records; whatever was answered stands.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Room } from '../../../server/room/room.ts'
import type { ScribeBugs } from '../../../server/scribe/plantedBugs.ts'
import { hashBoard } from '../../../shared/board/boardHash.ts'
import type { Command } from '../../../shared/board/commands.ts'
import { isAsk } from '../../../shared/board/rights.ts'
import { emptyBoard } from '../../../shared/board/state.ts'
import { foldEvents } from '../../../shared/rules/evolve.ts'
import { decideTime } from '../../../shared/rules/time.ts'
import type { Answer, RecordFrame } from '../../../shared/wire/frames.ts'
import { known } from '../../support/given.ts'
import { birdOf, nestOf } from '../../support/roomBuilder.ts'
import { claim, feed, pass, RoomOnDisk, weigh } from './roomOnDisk.ts'

type Step =
  | { readonly type: 'say'; readonly person: number; readonly body: Command }
  | { readonly type: 'repeat' }
  | { readonly type: 'wait'; readonly minutes: number }
  | { readonly type: 'restart'; readonly how: 'close' | 'kill' | 'cutPower' }
  | { readonly type: 'diskFails'; readonly nth: number }
  | { readonly type: 'diskHeals' }

const nestNo = fc.integer({ min: 1, max: 4 })
const claimNo = fc.integer({ min: 1, max: 6 })
const body: fc.Arbitrary<Command> = fc.oneof(
  nestNo.map(claim),
  fc.tuple(nestNo, fc.option(claimNo, { nil: undefined })).map(([nest, no]) => feed(nest, no)),
  fc
    .tuple(nestNo, claimNo)
    .map(([n, no]) => ({ type: 'GiveBack', v: 1, nest: nestOf(n), claimNo: no }) as const),
  fc
    .tuple(nestNo, claimNo)
    .map(([n, no]) => ({ type: 'CalledAway', v: 1, nest: nestOf(n), claimNo: no }) as const),
  fc.integer({ min: 1, max: 14 }).map((n) => weigh(n)),
  nestNo.map(
    (n) =>
      ({
        ...{ type: 'BirdSeen', v: 1, bird: birdOf(n), signs: ['lively'], droppings: 'seen' },
        private: { note: 'bright this morning' },
      }) as Command,
  ),
  fc.constantFrom<Command>({ type: 'BeginShift', v: 1 }, { type: 'EndShift', v: 1 }),
)

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc
      .tuple(fc.integer({ min: 1, max: 4 }), body)
      .map(([person, said]): Step => ({ type: 'say', person, body: said })),
  },
  { weight: 2, arbitrary: fc.constant<Step>({ type: 'repeat' }) },
  {
    weight: 3,
    arbitrary: fc.integer({ min: 1, max: 20 }).map((minutes): Step => ({ type: 'wait', minutes })),
  },
  {
    weight: 2,
    arbitrary: fc
      .constantFrom('close', 'kill', 'cutPower')
      .map((how): Step => ({ type: 'restart', how })),
  },
  {
    weight: 1,
    arbitrary: fc.integer({ min: 1, max: 4 }).map((nth): Step => ({ type: 'diskFails', nth })),
  },
  { weight: 1, arbitrary: fc.constant<Step>({ type: 'diskHeals' }) },
)

type Told = {
  readonly lane: string
  readonly n: number
  readonly body: Command
  readonly answer: Answer
  /** Whether it left a record; an ask that changed nothing leaves none and may be decided anew. */
  readonly isOnRecord: boolean
}

/** One walk, and what everybody was told on the way. */
class Walk {
  readonly house = new RoomOnDisk()
  readonly #bugs: ScribeBugs
  readonly #nextN = new Map<string, number>()
  readonly #told: Told[] = []
  #room: Room | null = null

  constructor(bugs: ScribeBugs) {
    this.#bugs = bugs
  }

  get room(): Room {
    return known(this.#room, 'server')
  }

  async go(steps: readonly Step[]): Promise<void> {
    this.#room = await this.house.founded({ bugs: this.#bugs })
    for (const one of steps) await this.#take(one)
    this.house.disk.heal()
    await this.room.reopen()
    await this.room.record(() => [])
    this.#mustHold()
    await this.#restart('cutPower')
    this.#mustHold()
  }

  async #take(one: Step): Promise<void> {
    switch (one.type) {
      case 'say':
        return this.#say(`d${one.person}`, one.body)
      case 'repeat':
        return this.#repeat()
      case 'wait':
        return pass(this.house, one.minutes)
      case 'restart':
        return this.#restart(one.how)
      case 'diskFails':
        return this.house.disk.failNthChange(one.nth, 'EIO')
      case 'diskHeals':
        this.house.disk.heal()
        await this.room.reopen()
    }
  }

  /** A screen keeps its number while it got no answer, and fills a gap with withdrawals. */
  async #say(lane: string, said: Command): Promise<void> {
    const n = this.#nextN.get(lane) ?? 1
    let answer = await this.house.sayAs(this.room, { lane, n }, said)
    while ('type' in answer && answer.code === 'laneGap') {
      const missing = { lane, n: answer.expected ?? 0 }
      await this.house.sayAs(this.room, missing, { type: 'Withdrawn', v: 1 })
      answer = await this.house.sayAs(this.room, { lane, n }, said)
    }
    if ('type' in answer) return
    this.#nextN.set(lane, n + 1)
    const isOnRecord = this.#recordOf({ lane, n }) !== undefined
    this.#told.push({ lane, n, body: said, answer, isOnRecord })
  }

  async #repeat(): Promise<void> {
    const last = this.#told.at(-1)
    if (!last?.isOnRecord) return
    const again = await this.house.sayAs(this.room, last, last.body)
    if (!('type' in again)) expect(again).toEqual(last.answer)
  }

  async #restart(how: 'close' | 'kill' | 'cutPower'): Promise<void> {
    this.house.disk.heal()
    const { version } = this.room.durable
    if (how === 'close') await this.room.close()
    if (how === 'cutPower') this.house.cutPower()
    else this.house.kill()
    this.#room = await this.house.open({ bugs: this.#bugs })
    expect(this.room.durable.version).toBeGreaterThan(version)
  }

  /** Every record: a walk is shorter than the longest tail. */
  get #records(): readonly RecordFrame[] {
    return this.room.recordsAfter(0) ?? []
  }

  #recordOf({ lane, n }: { readonly lane: string; readonly n: number }): RecordFrame | undefined {
    return this.#records.find(
      ({ cause }) => cause.type === 'command' && cause.lane === lane && cause.n === n,
    )
  }

  #mustHold(): void {
    const records = this.#records
    const { board, version } = this.room.durable
    const events = records.flatMap((record) => record.events)
    expect(records.map((record) => record.version)).toEqual(
      Array.from({ length: version }, (_, at) => at + 1),
    )
    expect(hashBoard(foldEvents(emptyBoard, events))).toBe(this.room.hash())
    const times = records.map(({ atMs }) => atMs)
    expect(times).toEqual([...times].sort((a, b) => a - b))
    const causes = records.flatMap(({ cause }) =>
      cause.type === 'command' ? [`${cause.lane}.${cause.n}`] : [],
    )
    expect(new Set(causes).size).toBe(causes.length)
    for (const { answer, isOnRecord, ...id } of this.#told) {
      const isReport = !isAsk(id.body.type)
      if (isOnRecord || isReport)
        expect(answer).toMatchObject({ version: this.#recordOf(id)?.version })
    }
    expect(decideTime(board, this.room.nowMs())).toEqual([])
  }
}

const walks = (bugs: ScribeBugs) =>
  fc.asyncProperty(fc.array(step, { minLength: 10, maxLength: 60 }), (steps) =>
    new Walk(bugs).go(steps),
  )

describe('a room on any walk', () => {
  it('is the fold of its records, keeps what it answered, and leaves nothing due', async () => {
    await fc.assert(walks({}), { numRuns: 40, seed: 20260516 })
  })

  it.each<keyof ScribeBugs>([
    'answersBeforeFlush',
    'shrugsAtFailedFlush',
    'takesRepeatsAnew',
    'leavesLanesOutOfSnapshot',
    'sleepsThroughTime',
    'resumesOneShort',
  ])('is found out under the planted mistake %s', async (bug) => {
    const found = await fc.check(walks({ [bug]: true }), {
      ...{ numRuns: 200, seed: 20260516, endOnFailure: true },
    })
    expect(found.failed).toBe(true)
  })
})
