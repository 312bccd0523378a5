// One turn: a command that arrived, against the working board, becomes a record or an answer. In the
// order that must not change: repeated? -> gap? -> room clock -> time rules -> decide -> evolve. What
// comes after it (private text, journal, screens, answer) is `scribe.ts`. Throws where a rule does,
// with nothing applied and nothing staged.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Command, Timing } from '../../shared/board/commands.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import { isAsk } from '../../shared/board/rights.ts'
import { type Context, timesOf } from '../../shared/rules/context.ts'
import type { Answer } from '../../shared/wire/frames.ts'
import { answerOf } from '../lanes/fromRecords.ts'
import { type Lane, type Standing, settle, standingOf } from '../lanes/lanes.ts'
import type { ScribeBugs } from './plantedBugs.ts'
import type { Brain, ClockPort, PrivatePort, PrivateText } from './ports.ts'
import { type Working, withRecord, withTime } from './working.ts'

/** A command whose sender, device and rights to the lane were checked at the edge. */
export type Taken = {
  readonly lane: string
  readonly n: number
  readonly by: PersonId
  readonly device: string
  readonly timing: Timing
  readonly body: Command
}

export type Arrived = Taken & { readonly arrivedAtMs: InstantMs }

export type TurnWorld = {
  readonly brain: Brain
  readonly clock: Pick<ClockPort, 'nowMs'>
  readonly privateFile: Pick<PrivatePort, 'stage' | 'unstage'>
  /** The lanes as they stand on disk; newer ones are in the working side. */
  readonly lanes: { get(id: string): Lane | undefined }
  readonly epoch: number
  readonly speed: number
  readonly bugs: ScribeBugs
}

export type Turned =
  | { readonly type: 'answer'; readonly answer: Answer; readonly working: Working }
  | { readonly type: 'forgotten' }
  | { readonly type: 'gap'; readonly expected: number }

/** The room's clock for this turn: whatever the clock says, never before the last record. */
export const turnTime = (world: Pick<TurnWorld, 'clock'>, working: Working): InstantMs =>
  Math.max(world.clock.nowMs(), working.lastAtMs)

export function takeTurn(world: TurnWorld, working: Working, arrived: Arrived): Turned {
  const lane = working.lanes.get(arrived.lane) ?? world.lanes.get(arrived.lane)
  const standing = standingWith(world.bugs, lane, arrived.n)
  if (standing.type === 'repeat') return { type: 'answer', answer: standing.answer, working }
  if (standing.type !== 'next') return standing
  const { answer, working: after } =
    arrived.body.type === 'Withdrawn'
      ? { answer: withdrawn, working }
      : decideTurn(world, working, arrived)
  const settled = settle(lane, { n: arrived.n, answer }, arrived.arrivedAtMs)
  const lanes = new Map(after.lanes).set(arrived.lane, settled)
  return { type: 'answer', answer, working: { ...after, lanes } }
}

/** The answer to a number that was settled without a record: nothing came of it. */
export const withdrawn: Answer = { status: 'rejected', why: { code: 'Withdrawn' } }

function standingWith(bugs: ScribeBugs, lane: Lane | undefined, n: number): Standing {
  const standing = standingOf(lane, n)
  const isRepeat = standing.type === 'repeat' || standing.type === 'forgotten'
  if (bugs.takesRepeatsAnew && isRepeat) return { type: 'next' }
  if (bugs.allowsLaneGaps && standing.type === 'gap') return { type: 'next' }
  return standing
}

type Decided = { readonly answer: Answer; readonly working: Working }

function decideTurn(world: TurnWorld, before: Working, arrived: Arrived): Decided {
  const nowMs = turnTime(world, before)
  const working = withTime(world.brain, before, { nowMs, epoch: world.epoch })
  const { command, text } = hidePrivate(arrived.body)
  const ref = text === null ? null : world.privateFile.stage(text)
  let isNamed = false
  try {
    const context = contextOf(world, arrived, { nowMs, ref })
    const decided = world.brain.decide(working.board, command, context)
    if (!decided.ok) return { answer: { status: 'rejected', why: decided.error }, working }
    // An ask that changes nothing leaves nothing; what a person did or saw is always written down.
    if (decided.value.length === 0 && isAsk(command.type)) {
      return { answer: { status: 'applied', version: working.version }, working }
    }
    const { lane, n, by, device } = arrived
    const after = withRecord(world.brain, working, {
      atMs: nowMs,
      epoch: world.epoch,
      cause: { type: 'command', lane, n },
      by,
      device,
      events: decided.value,
      names: ref === null ? [] : [ref],
    })
    isNamed = true
    return { answer: answerOf({ version: after.version, events: decided.value }), working: after }
  } finally {
    if (ref !== null && !isNamed) world.privateFile.unstage(ref)
  }
}

/** The command without what must reach neither board nor journal, and that text by itself. */
function hidePrivate(body: Command): { command: Command; text: PrivateText | null } {
  if (!('private' in body) || body.private === undefined) return { command: body, text: null }
  return { command: { ...body, private: {} }, text: body.private }
}

function contextOf(
  world: TurnWorld,
  arrived: Arrived,
  turn: { readonly nowMs: InstantMs; readonly ref: PrivateRef | null },
): Context {
  const waitedMs = Math.max(0, (turn.nowMs - arrived.arrivedAtMs) / world.speed)
  return {
    by: arrived.by,
    nowMs: turn.nowMs,
    ...timesOf(aged(arrived.timing, Math.round(waitedMs)), turn.nowMs, world.speed),
    ...(turn.ref === null ? {} : { private: turn.ref }),
  }
}

/** How long ago counts from now, and the command has waited for the flush before it. */
const aged = (timing: Timing, waitedMs: LengthMs): Timing => ({
  ...timing,
  notedAgoMs: timing.notedAgoMs + waitedMs,
  ...(timing.startedAgoMs === undefined ? {} : { startedAgoMs: timing.startedAgoMs + waitedMs }),
})
