// What was told held against what is on disk. Nothing here asks the program what happened: the past is
// read by `history.ts`, the tellings come from `oracle.ts`.
//
//   lost      an answer said "applied at version v", and version v is not that command's record
//   doubled   a second record of one command, or one weight noted twice

import { isAsk } from '../../shared/board/rights.ts'
import type { CommandFrame } from '../../shared/wire/frames.ts'
import { History, type PastRecord } from './history.ts'
import { type CommandKey, keyOf, type Telling, type ToldAnswer } from './oracle.ts'

export type Findings = {
  /** Commands whose senders were told of a record of theirs. */
  readonly acknowledged: number
  readonly lost: number
  readonly doubled: number
  /** Each a sentence. */
  readonly failures: readonly string[]
}

/** Sentences kept; a broken program would otherwise fill the memory with the same one. */
const failuresMax = 1_000

export class Audit {
  readonly #history: History
  readonly #commands = new Map<CommandKey, CommandFrame>()
  readonly #acknowledged = new Map<CommandKey, number>()
  readonly #refused = new Set<CommandKey>()
  readonly #unanswered = new Set<CommandKey>()
  readonly #failures: string[] = []
  #lost = 0
  #doubled = 0

  constructor(dir: string) {
    this.#history = new History(dir)
  }

  /** Whatever stands in the journal now was written before the oracle began to listen. */
  readPast(): void {
    const past = this.#history.readOn(new Set())
    for (const flaw of past.flaws) this.fail(flaw)
    this.#doubled += past.doubled
  }

  get findings(): Findings {
    const { size: acknowledged } = this.#acknowledged
    return { acknowledged, lost: this.#lost, doubled: this.#doubled, failures: this.#failures }
  }
  get history(): History {
    return this.#history
  }
  /** Commands that left a device and were never answered. */
  get unanswered(): readonly CommandKey[] {
    return [...this.#unanswered]
  }

  /** How many different reports left this person's device. */
  reportsSentBy(person: string): number {
    return [...this.#commands.values()].filter((one) => one.by === person && isReport(one)).length
  }

  fail(sentence: string): void {
    if (this.#failures.length < failuresMax) this.#failures.push(sentence)
  }

  /** Reads on from the disk, on which nobody writes meanwhile, and weighs what was told against it. */
  take(telling: Telling): void {
    for (const wrong of telling.wrongs) this.fail(wrong)
    for (const frame of telling.sent) this.#sent(frame)
    const { records, flaws, doubled } = this.#history.readOn(versionsIn(telling))
    for (const flaw of flaws) this.fail(flaw)
    for (const record of records) this.#recorded(record)
    this.#doubled += doubled
    this.#shown(telling)
    const shownKeys = new Set(telling.records.map(({ key }) => key))
    for (const answer of telling.answers) this.#answered(answer, shownKeys)
  }

  #sent(frame: CommandFrame): void {
    const key = keyOf(frame)
    const before = this.#commands.get(key)
    if (before === undefined) {
      this.#commands.set(key, frame)
      this.#unanswered.add(key)
      return
    }
    const isSame = JSON.stringify(frame.body) === JSON.stringify(before.body)
    if (!isSame && frame.body.type !== 'Withdrawn') this.fail(`${key} was given to two commands`)
  }

  #recorded({ version, key, by, device }: PastRecord): void {
    if (key === null) return
    const command = this.#commands.get(key)
    if (command === undefined) this.fail(`version ${version}: nobody ever sent ${key}`)
    else if (command.by !== by || device === null || !command.lane.startsWith(device)) {
      this.fail(`version ${version}: ${key} stands under another person or device`)
    }
    if (this.#refused.has(key)) this.fail(`version ${version}: ${key} was refused before`)
  }

  #shown({ records, hashes }: Telling): void {
    for (const { version, text } of records) {
      if (this.#history.recordAt(version)?.text !== text) {
        this.fail(`version ${version} was shown, and is not so on disk`)
      }
    }
    for (const { version, hash, by } of hashes) {
      if (this.#history.boardHashAt(version) !== hash) {
        this.fail(`the board in ${by} at version ${version} is not the fold of the journal`)
      }
    }
  }

  #answered({ key, answer }: ToldAnswer, shownKeys: ReadonlySet<CommandKey | null>): void {
    const command = this.#commands.get(key)
    if (command === undefined) {
      this.fail(`${key} was answered and never sent`)
      return
    }
    this.#unanswered.delete(key)
    const recordedAt = this.#history.versionOf(key)
    if (answer.status === 'rejected') {
      this.#refused.add(key)
      if (recordedAt !== undefined) this.fail(`${key} was refused, and is on disk`)
      if (isReport(command)) this.fail(`report ${key} was refused: ${answer.why.code}`)
      return
    }
    if (answer.version > this.#history.version) {
      this.fail(`${key} was answered at version ${answer.version}, which is not on disk`)
    }
    this.#held(command, answer.version)
    // An ask that changed nothing is granted and leaves no record; no screen is shown one either.
    const leavesNone = isAsk(command.body.type) && recordedAt === undefined && !shownKeys.has(key)
    if (leavesNone || this.#acknowledged.get(key) === answer.version) return
    this.#acknowledged.set(key, answer.version)
    if (recordedAt !== answer.version) this.#lost += 1
  }

  /**
   * Who was granted a nest has it at that version, whether there was anything to record or not. Where
   * the answer to what an earlier reading found comes only now, the record itself has been seen.
   */
  #held({ by, body }: CommandFrame, version: number): void {
    const holders = this.#history.holdersAt(version)
    if (body.type !== 'ClaimNest' || holders === undefined) return
    if (holders.get(body.nest) !== by) {
      this.fail(`${by} was granted ${body.nest} at version ${version}, and has it not`)
    }
  }
}

const isReport = ({ body }: CommandFrame): boolean => body.type !== 'Withdrawn' && !isAsk(body.type)

/** The versions of which the board will be wanted again. */
const versionsIn = ({ hashes, answers }: Telling): ReadonlySet<number> =>
  new Set([
    ...hashes.map(({ version }) => version),
    ...answers.flatMap(({ answer }) => (answer.status === 'applied' ? [answer.version] : [])),
  ])
