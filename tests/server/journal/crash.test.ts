// Nothing acknowledged is lost, doubled or changed, whatever becomes of the machine.

import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { WriteFailed } from '../../../server/disk/appender.ts'
import type { Disk } from '../../../server/disk/disk.ts'
import { type DiskErrorCode, FakeDisk } from '../../support/fakeDisk.ts'
import { cutPowerAt } from '../../support/powerCut.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'
import { live, type Step } from './lives.ts'
import { entries, entry, friday, openNotes, saturday, versionsOf } from './notes.ts'
import { dir, diskWith, fridayFile, soundFile } from './wreckage.ts'

// Thousands of small openings; a machine with much else to do takes its time over them.
vi.setConfig({ testTimeout: 30_000 })

describe('every state a loss of power can leave', () => {
  /** Cuts the power at every call of an opening and one append, in every way, and opens what is left. */
  async function everyState(
    appended: { readonly from: number; readonly to: number; readonly day: string },
    check: (versions: readonly number[], isDone: boolean) => void,
  ): Promise<number> {
    const whole = await soundFile(2)
    let states = 0
    for (let stopAt = 1; stopAt <= 8; stopAt += 1) {
      states += await everyChoice(async (choose) => {
        const disk = new FakeDisk({ choose })
        await disk.makeDir(dir)
        disk.place(`${dir}/${fridayFile}`, whole)
        const { journal } = await openNotes(disk, dir)
        const { after, isDone } = await cutPowerAt(disk, stopAt, async (on) => {
          const opened = await openNotes(on, dir, journal.head)
          await opened.journal.append(entries(appended.from, appended.to), appended.day)
        })
        check(versionsOf((await openNotes(after, dir)).records), isDone)
      }, 200_000)
    }
    return states
  }

  it.each([
    ['the same day', friday],
    ['a new day', saturday],
  ])('around an append on %s opens with all that was acknowledged', async (_what, day) => {
    const seen = new Set<string>()
    const states = await everyState({ from: 3, to: 3, day }, (versions, isDone) => {
      seen.add(`${isDone ? 'answered' : 'cut'} ${versions}`)
    })
    expect(seen).toEqual(new Set(['cut 1,2', 'cut 1,2,3', 'answered 1,2,3']))
    expect(states).toBeGreaterThan(500)
  })

  it('around an append of two keeps none, the first or both, in order', async () => {
    const seen = new Set<string>()
    await everyState({ from: 3, to: 4, day: friday }, (versions, isDone) => {
      seen.add(`${isDone ? 'answered' : 'cut'} ${versions}`)
    })
    expect(seen).toEqual(new Set(['cut 1,2', 'cut 1,2,3', 'cut 1,2,3,4', 'answered 1,2,3,4']))
  })
})

describe('a failing disk', () => {
  const codes: readonly DiskErrorCode[] = ['EIO', 'ENOSPC', 'EROFS']

  it.each(codes)(
    'with %s at the nth call ends the journal for good, and keeps all before',
    async (code) => {
      for (const day of [friday, saturday]) {
        for (let nth = 1; nth <= 5; nth += 1) {
          const disk = await diskWith({ [fridayFile]: await soundFile(2) })
          const { journal } = await openNotes(disk, dir)
          disk.failNthChange(nth, code)
          const answer = await journal.append([entry(3)], day).then(
            () => 'kept',
            (error: unknown) => error,
          )
          if (disk.failureCount === 0) {
            expect(answer).toBe('kept')
            continue
          }
          expect(answer).toBeInstanceOf(WriteFailed)
          const calls = disk.callCount
          await expect(journal.append([entry(3, 33)], day)).rejects.toBe(journal.failure)
          expect(disk.callCount).toBe(calls)
          expect(journal.head.version).toBe(2)
          expect(versionsOf(await journal.readRecords({ from: 1, to: 9, limit: 9 }))).toEqual([
            1, 2,
          ])
          const { records } = await openNotes(disk.crash(), dir)
          expect(versionsOf(records).slice(0, 2)).toEqual([1, 2])
        }
      }
    },
  )

  it('fails an opening that cannot mend, and leaves all there for the next', async () => {
    const torn = (await soundFile(3)).subarray(0, -9)
    for (let nth = 1; nth <= 12; nth += 1) {
      const disk = await diskWith({ [fridayFile]: torn })
      disk.failNthChange(nth, 'EIO')
      await openNotes(disk, dir).catch((error: unknown) => {
        expect(error).toMatchObject({ code: 'EIO' })
      })
      const { records } = await openNotes(disk.crash(), dir)
      expect(versionsOf(records)).toEqual([1, 2])
    }
  })

  it('that is full takes a short write, and the torn record is cut off once there is room', async () => {
    const disk = await diskWith({ [fridayFile]: await soundFile(2) })
    const { journal } = await openNotes(disk, dir)
    disk.setCapacity(disk.usedBytes + 100)
    await expect(journal.append([entry(3)], friday)).rejects.toMatchObject({
      cause: { code: 'ENOSPC' },
    })
    disk.heal()
    const { records, torn } = await openNotes(disk, dir)
    expect(versionsOf(records)).toEqual([1, 2])
    expect(torn).toMatchObject([{ lengthBytes: 100 }])
  })

  it('that called lost bytes clean is not believed: opening writes the newest records anew', async () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const disk = new FakeDisk({ choose: seededChoose(seed) })
      const first = await openNotes(disk, dir)
      await first.journal.append([entry(1)], friday)
      disk.failNth('sync', 1, 'EIO')
      await expect(first.journal.append([entry(2)], friday)).rejects.toBeInstanceOf(WriteFailed)
      const second = await openNotes(disk.kill(), dir)
      expect(versionsOf(second.records)).toEqual([1, 2])
      await second.journal.append([entry(3)], friday)
    }
  })
})

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      type: fc.constant('append' as const),
      records: fc.integer({ min: 1, max: 3 }),
      day: fc.constantFrom('friday' as const, 'saturday' as const),
    }),
  },
  fc.record({
    type: fc.constant('lose' as const),
    what: fc.constantFrom('power' as const, 'process' as const),
  }),
  fc.record({
    type: fc.constant('loseAt' as const),
    call: fc.integer({ min: 1, max: 14 }),
    what: fc.constantFrom('power' as const, 'process' as const),
  }),
  fc.record({
    type: fc.constant('fail' as const),
    nth: fc.integer({ min: 1, max: 8 }),
    code: fc.constantFrom('EIO' as const, 'ENOSPC' as const, 'EROFS' as const),
  }),
  fc.constant({ type: 'reopen' as const }),
  fc.constant({ type: 'snapshot' as const }),
)
const life = fc.tuple(fc.array(step, { maxLength: 14 }), fc.integer())

describe('whole lives', () => {
  it('of appends, failures and losses at any call keep everything acknowledged', async () => {
    await fc.assert(
      fc.asyncProperty(life, async ([steps, seed]) => {
        expect(await live(steps, seededChoose(seed))).toEqual([])
      }),
      { seed: 20260523, numRuns: 1_500 },
    )
  })

  const planted: readonly (readonly [what: string, sabotage: (disk: Disk) => Disk])[] = [
    [
      'never syncs a file',
      (disk) => withFile(disk, (file) => ({ ...file, sync: async () => undefined })),
    ],
    ['never syncs a folder', (disk) => over(disk, { syncDir: async () => undefined })],
    [
      'tries a failed sync again',
      (disk) =>
        withFile(disk, (file) => ({ ...file, sync: () => file.sync().catch(() => file.sync()) })),
    ],
    [
      'takes a short write for a whole one',
      (disk) =>
        withFile(disk, (file) => ({
          ...file,
          write: async (bytes) => {
            await file.write(bytes.subarray(0, -1))
            return bytes.length
          },
        })),
    ],
    [
      'says no when a file cannot be read',
      (disk) =>
        over(disk, {
          read: async (path) => (path.endsWith('1-2026-05-22.journal') ? null : disk.read(path)),
        }),
    ],
  ]
  it.each(planted)('are found wanting on a disk that %s', async (_what, sabotage) => {
    const found = await fc.check(
      fc.asyncProperty(life, async ([steps, seed]) => {
        return (await live(steps, seededChoose(seed), sabotage)).length === 0
      }),
      { seed: 20260523, numRuns: 1_500 },
    )
    expect(found.failed).toBe(true)
  })
})

const over = (disk: Disk, changed: Partial<Disk>): Disk => ({
  list: (path) => disk.list(path),
  read: (path) => disk.read(path),
  openAppend: (path) => disk.openAppend(path),
  rename: (from, to) => disk.rename(from, to),
  remove: (path) => disk.remove(path),
  makeDir: (path) => disk.makeDir(path),
  syncDir: (path) => disk.syncDir(path),
  ...changed,
})

const withFile = (
  disk: Disk,
  changed: (
    file: Awaited<ReturnType<Disk['openAppend']>>,
  ) => Awaited<ReturnType<Disk['openAppend']>>,
): Disk => over(disk, { openAppend: async (path) => changed(await disk.openAppend(path)) })
