// Bytes reach the disk whole or the failure is heard; a file replaced is the old one or the new one.

import { describe, expect, it } from 'vitest'
import { Appender, WriteFailed } from '../../../server/disk/appender.ts'
import type { OpenFile } from '../../../server/disk/disk.ts'
import { replaceFile, shortWritesMax, writeAll } from '../../../server/disk/durable.ts'
import { type DiskCall, FakeDisk } from '../../support/fakeDisk.ts'
import { cutPowerAt } from '../../support/powerCut.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'

const bytes = (content: string) => Buffer.from(content)
const text = (content: Uint8Array | null) => content && Buffer.from(content).toString()
const seeded = (seed = 7) => new FakeDisk({ choose: seededChoose(seed) })

/** A file that takes so many bytes at each write. */
function biting(taken: number): OpenFile & { written: number; calls: number } {
  return {
    written: 0,
    calls: 0,
    async write(more) {
      this.calls += 1
      const now = Math.min(taken, more.length)
      this.written += now
      return now
    },
    sync: async () => undefined,
    close: async () => undefined,
  }
}

describe('writing all of it', () => {
  it('goes on through short writes until every byte is taken, in order', async () => {
    const disk = seeded()
    disk.writeShort()
    const content = 'a line that is written in several bites\n'
    await writeAll(await disk.openAppend('/log'), bytes(content))
    expect(text(await disk.read('/log'))).toBe(content)
  })

  it('throws when the disk takes nothing', async () => {
    await expect(writeAll(biting(0), bytes('abc'))).rejects.toThrow('no byte')
  })

  it('gives up after a bounded number of bites', async () => {
    const file = biting(1)
    await expect(writeAll(file, new Uint8Array(10_000))).rejects.toThrow('bites of one write')
    expect(file.calls).toBe(shortWritesMax + 1)
    const enough = biting(1)
    await writeAll(enough, new Uint8Array(shortWritesMax + 1))
    expect(enough.written).toBe(shortWritesMax + 1)
  })

  it('writes nothing for no bytes', async () => {
    const file = biting(0)
    await writeAll(file, new Uint8Array())
    expect(file.calls).toBe(0)
  })
})

describe('replacing a file', () => {
  it('leaves the old content or the new one, whole, wherever the power is cut', async () => {
    const seen = new Set<string>()
    for (let stop = 1; stop <= 8; stop += 1) {
      await everyChoice(async (choose) => {
        const disk = new FakeDisk({ choose })
        disk.place('/file', bytes('old'))
        const cut = await cutPowerAt(disk, stop, (on) => replaceFile(on, '/file', bytes('new!')))
        const found = text(await cut.after.read('/file')) ?? 'nothing'
        seen.add(`${cut.isDone ? 'returned' : 'cut'}: ${found}`)
      }, 5_000)
    }
    expect(seen).toEqual(new Set(['cut: old', 'cut: new!', 'returned: new!']))
  })

  it('throws away what an earlier try left aside', async () => {
    const disk = seeded()
    disk.place('/file.aside', bytes('half of something'))
    await replaceFile(disk, '/file', bytes('new'))
    expect([...disk.files].map(([path, content]) => [path, text(content)])).toEqual([
      ['/file', 'new'],
    ])
  })

  it('throws what the disk said at each failing call, and the old content stands', async () => {
    const calls: readonly DiskCall[] = ['remove', 'openAppend', 'write', 'sync', 'rename']
    for (const call of calls) {
      const disk = seeded()
      disk.place('/file', bytes('old'))
      disk.failNth(call, 1, 'EIO')
      await expect(replaceFile(disk, '/file', bytes('new'))).rejects.toMatchObject({ code: 'EIO' })
      expect(text(await disk.crash().read('/file'))).toBe('old')
    }
  })

  it('does not call it done when the folder could not be synced', async () => {
    const disk = seeded()
    disk.failNth('syncDir', 1, 'EIO')
    await expect(replaceFile(disk, '/file', bytes('new'))).rejects.toMatchObject({ code: 'EIO' })
  })

  it('succeeds at a second try after a failed sync, since nothing of the first is used', async () => {
    const disk = seeded()
    disk.place('/file', bytes('old'))
    disk.failNth('sync', 1, 'EIO')
    await expect(replaceFile(disk, '/file', bytes('new'))).rejects.toMatchObject({ code: 'EIO' })
    await replaceFile(disk, '/file', bytes('new'))
    expect(text(await disk.crash().read('/file'))).toBe('new')
  })
})

describe('appending', () => {
  it('takes nothing more after the first failure, and never syncs again', async () => {
    for (const call of ['write', 'sync'] as const) {
      const calls: DiskCall[] = []
      const disk = new FakeDisk({
        choose: seededChoose(3),
        before: (called) => {
          calls.push(called)
        },
      })
      const appender = await Appender.open(disk, '/log')
      await appender.append(bytes('one\n'))
      disk.failNth(call, 1, 'EIO')
      await expect(appender.append(bytes('two\n'))).rejects.toBeInstanceOf(WriteFailed)
      const callsThen = calls.length
      await expect(appender.append(bytes('three\n'))).rejects.toBe(appender.failure)
      expect(calls.length).toBe(callsThen)
      expect(appender.failure?.cause).toMatchObject({ code: 'EIO' })
    }
  })

  it('is for one at a time', async () => {
    const appender = await Appender.open(seeded(), '/log')
    const first = appender.append(bytes('one\n'))
    await expect(appender.append(bytes('two\n'))).rejects.toThrow('one append at a time')
    await first
    expect(appender.failure).toBeNull()
  })
})
