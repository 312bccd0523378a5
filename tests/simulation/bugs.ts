// Every planted mistake by name. Each is one that somebody could make in an afternoon, and that no
// ordinary day would show.

import type { Link, OutboxStore } from '../../client/session/ports.ts'
import type { Disk, OpenFile } from '../../server/disk/disk.ts'
import type { Board } from '../../shared/board/state.ts'
import { notLiveMs } from '../../shared/wire/limits.ts'
import { readLine } from '../faults/journalOnDisk.ts'
import {
  askingTheAbsent,
  fetchingNobody,
  forgettingMentors,
  handingCallsOn,
  keepingPairs,
  offeringForEver,
  shruggingAtCounts,
  withoutPairs,
} from './callBugs.ts'
import type { PlantedBug, ScreenBrain } from './plantedBugs.ts'
import {
  grantingTaken,
  holdingForEver,
  leasingByDevice,
  rejectingLate,
  startingLongAgo,
  withoutDoubts,
  withoutLapses,
  withoutStrikes,
} from './ruleBugs.ts'

export const bugs = {
  acknowledgesBeforeFlush: { scribe: { answersBeforeFlush: true } },
  shrugsAtAFailedFlush: { scribe: { shrugsAtFailedFlush: true } },
  decidesARepeatAgain: { scribe: { takesRepeatsAnew: true } },
  namesAPrivateTextFirst: { scribe: { namesPrivateTextFirst: true } },
  sleepsThroughTime: { scribe: { sleepsThroughTime: true } },
  leavesLanesOutOfTheSnapshot: { scribe: { leavesLanesOutOfSnapshot: true } },
  resumesOneShort: { scribe: { resumesOneShort: true } },
  syncsNoFolderForANewDay: { disk: withoutFolderSync },
  ignoresAShortWrite: { disk: believingEveryWrite },
  takesMiddleDamageForATornEnd: { disk: readingUpToDamage },
  leasesByTheClientsClock: { serverBrain: leasingByDevice },
  trustsTheDevicesStart: { serverBrain: startingLongAgo },
  grantsATakenNest: { serverBrain: grantingTaken },
  rejectsALateReport: { serverBrain: rejectingLate },
  doesNotEndALapsedClaim: { serverBrain: withoutLapses },
  lapsesWithoutADoubt: { serverBrain: withoutDoubts },
  leavesBirdsWithTheirHolder: { serverBrain: withoutStrikes },
  neverLooksAgain: { serverBrain: holdingForEver },
  takesNoNoticeOfTwoFeeds: { serverBrain: withoutPairs },
  keepsAPairThatIsGone: { serverBrain: keepingPairs },
  shrugsAtAShortCount: { serverBrain: shruggingAtCounts },
  asksTheAbsent: { serverBrain: askingTheAbsent },
  letsATraineeClaimAlone: { serverBrain: forgettingMentors },
  handsACallOn: { serverBrain: handingCallsOn },
  fetchesNobodyForRefusals: { serverBrain: fetchingNobody },
  offersForEver: { serverBrain: offeringForEver },
  forgetsThatAHoldWasLifted: { screenBrain: withoutLifting },
  hashesWithoutTheBirds: { serverBrain: hashingNoBirds, screenBrain: hashingNoBirds },
  movesTheRoomsClock: { clockSource: ({ wallMs }) => ({ wallMs, monotonicMs: wallMs }) },
  runsTwoTimersAfterARestart: { startsTwice: true },
  dropsARefusedReport: { store: droppingRefused },
  forgetsBeforeTheAnswer: { store: forgettingAtOnce },
  hidesWhatWaits: { store: hidingEntries },
  triesTheLinkOnce: { link: connectingOnce },
  staysLiveInSilence: {
    deviceTimers: (timers) => ({
      ...timers,
      after: (delayMs, run) =>
        delayMs === notLiveMs ? () => undefined : timers.after(delayMs, run),
    }),
  },
} as const satisfies Readonly<Record<string, PlantedBug>>

export type BugName = keyof typeof bugs

/** Passes every call on; a bug changes the one it is about. */
const passing = (disk: Disk): Disk => ({
  list: (dir) => disk.list(dir),
  read: (path) => disk.read(path),
  openAppend: (path) => disk.openAppend(path),
  rename: (from, to) => disk.rename(from, to),
  remove: (path) => disk.remove(path),
  makeDir: (dir) => disk.makeDir(dir),
  syncDir: (dir) => disk.syncDir(dir),
})

/** The name of a new day's file is left to luck; files written aside are renamed as they should be. */
function withoutFolderSync(disk: Disk): Disk {
  let isNewDay = false
  return {
    ...passing(disk),
    openAppend: (path) => {
      isNewDay = path.endsWith('.journal')
      return disk.openAppend(path)
    },
    syncDir: async (dir) => {
      if (!isNewDay) await disk.syncDir(dir)
      isNewDay = false
    },
  }
}

function believingEveryWrite(disk: Disk): Disk {
  const believing = (file: OpenFile): OpenFile => ({
    write: async (bytes) => {
      await file.write(bytes)
      return bytes.length
    },
    sync: () => file.sync(),
    close: () => file.close(),
  })
  return { ...passing(disk), openAppend: async (path) => believing(await disk.openAppend(path)) }
}

/** As a reader would that stops at the first line it cannot read and calls the rest a torn end. */
function readingUpToDamage(disk: Disk): Disk {
  return {
    ...passing(disk),
    read: async (path) => {
      const bytes = await disk.read(path)
      return bytes === null || !path.endsWith('.journal') ? bytes : upToDamage(bytes)
    },
  }
}

/** A real torn end is left to those who keep it beside; only damage before a sound line is hidden. */
function upToDamage(bytes: Uint8Array): Uint8Array {
  let at = 0
  let damagedAt: number | null = null
  for (let end = bytes.indexOf(10); end !== -1; end = bytes.indexOf(10, at)) {
    const isSound = readLine(Buffer.from(bytes.subarray(at, end))) !== null
    if (isSound && damagedAt !== null) return bytes.subarray(0, damagedAt)
    if (!isSound) damagedAt ??= at
    at = end + 1
  }
  return bytes
}

function hashingNoBirds<Brain extends ScreenBrain>(brain: Brain): Brain {
  return { ...brain, hashBoard: (board: Board) => brain.hashBoard({ ...board, birds: {} }) }
}

function withoutLifting(brain: ScreenBrain): ScreenBrain {
  const isLift = ({ type }: Parameters<typeof brain.evolve>[1]) => type === 'HoldLifted'
  return {
    ...brain,
    evolve: (board, event) => (isLift(event) ? board : brain.evolve(board, event)),
  }
}

const passingStore = (store: OutboxStore): OutboxStore => ({
  load: () => store.load(),
  add: (noted, insteadOf) => store.add(noted, insteadOf),
  write: (change) => store.write(change),
  adopt: (lane, laneN) => store.adopt(lane, laneN),
})

function droppingRefused(store: OutboxStore): OutboxStore {
  return {
    ...passingStore(store),
    write: ({ putStuck: _putStuck, ...change }) => store.write(change),
  }
}

function forgettingAtOnce(store: OutboxStore): OutboxStore {
  return {
    ...passingStore(store),
    add: async (noted, insteadOf) => {
      const entry = await store.add(noted, insteadOf)
      await store.write({ remove: [entry.n] })
      return entry
    },
  }
}

/** A page that does not look at what an earlier one left. */
function hidingEntries(store: OutboxStore): OutboxStore {
  return {
    ...passingStore(store),
    load: async () => ({ ...(await store.load()), entries: [] }),
    adopt: async (lane, laneN) => ({ ...(await store.adopt(lane, laneN)), entries: [] }),
  }
}

function connectingOnce(link: Link): Link {
  let isFirst = true
  return {
    connect: (handlers) => {
      if (isFirst) link.connect(handlers)
      isFirst = false
    },
    send: (frame) => link.send(frame),
    close: () => link.close(),
  }
}
