// A small file of settings: what can be seen of it is on disk, whatever happens.

import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { changesWaitingMax, durableLow } from '../../../server/disk/durableLow.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { cutPowerAt } from '../../support/powerCut.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'

const path = '/settings.json'
const schema = z.strictObject({ words: z.array(z.string()) })
const parse = (raw: unknown) => schema.parse(raw)
const open = (disk: FakeDisk) => durableLow({ disk, path, parse }, { words: ['first'] })
const seeded = () => new FakeDisk({ choose: seededChoose(3) })
const add = (word: string) => (data: { words: string[] }) => ({ words: [...data.words, word] })

describe('a value kept by lowdb on our disk', () => {
  it('is the default until it is changed, and nothing is written before', async () => {
    const disk = seeded()
    expect((await open(disk)).data).toEqual({ words: ['first'] })
    expect(disk.files.size).toBe(0)
  })

  it('is there again after a loss of power, as soon as a change is answered', async () => {
    const disk = seeded()
    const low = await open(disk)
    await low.change(add('second'))
    expect((await open(disk.crash())).data).toEqual({ words: ['first', 'second'] })
  })

  it('is the old or the new one, wherever the power is cut', async () => {
    const before = seeded()
    await (await open(before)).change(add('second'))
    const bytes = before.files.get(path) ?? new Uint8Array()
    const seen = new Set<string>()
    for (let stopAt = 1; stopAt <= 9; stopAt += 1) {
      await everyChoice(async (choose) => {
        const disk = new FakeDisk({ choose })
        disk.place(path, bytes)
        const cut = await cutPowerAt(disk, stopAt, async (on) => {
          await (await open(on)).change(add('third'))
        })
        const { words } = (await open(cut.after)).data
        seen.add(`${cut.isDone ? 'answered' : 'cut'} ${words.length}`)
      }, 10_000)
    }
    expect(seen).toEqual(new Set(['cut 2', 'cut 3', 'answered 3']))
  })

  it('shows no change that is not durable, and stays as it was where the disk fails', async () => {
    const disk = seeded()
    const low = await open(disk)
    disk.failNth('sync', 1, 'ENOSPC')
    const change = low.change(add('second'))
    expect(low.data.words).toEqual(['first'])
    await expect(change).rejects.toMatchObject({ code: 'ENOSPC' })
    expect(low.data.words).toEqual(['first'])
    await low.change(add('third'))
    expect((await open(disk.crash())).data.words).toEqual(['first', 'third'])
  })

  it('takes changes in turn, each on top of the one before, past one that fails', async () => {
    const disk = seeded()
    const low = await open(disk)
    disk.failNth('sync', 2, 'EIO')
    const answers = await Promise.allSettled(['a', 'b', 'c'].map((word) => low.change(add(word))))
    expect(answers.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled'])
    expect(low.data.words).toEqual(['first', 'a', 'c'])
  })

  it('writes nothing for a change that changes nothing', async () => {
    const disk = seeded()
    const low = await open(disk)
    await low.change((data) => data)
    expect(disk.files.size).toBe(0)
  })

  it('takes no more than a bounded number of changes at once', async () => {
    const low = await open(seeded())
    const changes = Array.from({ length: changesWaitingMax + 1 }, () => low.change(add('x')))
    const answers = await Promise.allSettled(changes)
    expect(answers.filter(({ status }) => status === 'rejected').length).toBe(1)
    expect(low.data.words.length).toBe(changesWaitingMax + 1)
  })

  it('is refused by name with any byte changed or missing', async () => {
    const disk = seeded()
    await (await open(disk)).change(add('second'))
    const whole = Buffer.from(disk.files.get(path) ?? [])
    for (let at = 0; at < whole.length; at += 1) {
      const flipped = Buffer.from(whole)
      flipped[at] = (flipped[at] ?? 0) ^ 1
      for (const damaged of [flipped, whole.subarray(0, Math.min(at, whole.length - 2))]) {
        disk.place(path, damaged)
        await expect(open(disk)).rejects.toMatchObject({
          name: 'DamagedFile',
          kind: 'badSeal',
          file: path,
        })
      }
    }
  })

  it('is refused by name where a newer program wrote it', async () => {
    const disk = seeded()
    const newer = await durableLow({ disk, path, parse: (raw) => raw as object }, { a: 1 })
    await newer.change(() => ({ pages: 3 }))
    await expect(open(disk)).rejects.toMatchObject({ kind: 'unknownFormat', file: path })
  })
})
