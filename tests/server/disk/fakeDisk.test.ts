// The disk in memory is as bad as it must be: tests that rest on it are worth what it can lose.

import { describe, expect, it } from 'vitest'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'

const seeded = () => new FakeDisk({ choose: seededChoose(7) })
const bytes = (content: string) => Buffer.from(content)

async function write(disk: FakeDisk, path: string, content: string) {
  const file = await disk.openAppend(path)
  await file.write(bytes(content))
  return file
}

/** Every state in which `work` may leave the disk when the power is cut after it, as text. */
async function survivors(work: (disk: FakeDisk) => Promise<unknown>): Promise<Set<string>> {
  const states = new Set<string>()
  await everyChoice(async (choose) => {
    const disk = new FakeDisk({ choose })
    await disk.makeDir('/r')
    await work(disk)
    const files = [...disk.crash().files].map(([path, content]) => [path, [...content]])
    states.add(JSON.stringify(files))
  }, 20_000)
  return states
}

const state = (...files: readonly (readonly [string, string])[]) =>
  JSON.stringify(files.map(([path, content]) => [path, [...bytes(content)]]))

describe('a loss of power', () => {
  it('keeps what was synced under a synced name, and nothing else is possible', async () => {
    const left = await survivors(async (disk) => {
      const file = await write(disk, '/r/a', 'ab')
      await file.sync()
      await disk.syncDir('/r')
    })
    expect([...left]).toEqual([state(['/r/a', 'ab'])])
  })

  it('may lose a name that was not synced, though its bytes were', async () => {
    const left = await survivors(async (disk) => (await write(disk, '/r/a', 'ab')).sync())
    expect(left).toEqual(new Set([state(), state(['/r/a', 'ab'])]))
  })

  it('may keep any prefix of what was not synced, with or without garbage after it', async () => {
    const left = await survivors(async (disk) => {
      await write(disk, '/r/a', 'ab')
      await disk.syncDir('/r')
    })
    for (const kept of ['', 'a', 'ab', 'a\0', '\0\0']) expect(left).toContain(state(['/r/a', kept]))
    expect(left.size).toBeGreaterThan(5)
  })

  it('never touches the synced bytes before them', async () => {
    const left = await survivors(async (disk) => {
      const file = await write(disk, '/r/a', 'ab')
      await file.sync()
      await disk.syncDir('/r')
      await file.write(bytes('cd'))
    })
    for (const one of left) expect(one).toContain(`[["/r/a",[97,98`)
  })

  it('keeps or loses each un-synced name by itself', async () => {
    const left = await survivors(async (disk) => {
      for (const name of ['a', 'b']) await (await write(disk, `/r/${name}`, name)).sync()
    })
    expect(left).toEqual(
      new Set([
        state(),
        state(['/r/a', 'a']),
        state(['/r/b', 'b']),
        state(['/r/a', 'a'], ['/r/b', 'b']),
      ]),
    )
  })

  it('may bring back a removed file, and undo a rename, whole', async () => {
    const left = await survivors(async (disk) => {
      await (await write(disk, '/r/a', 'a')).sync()
      await (await write(disk, '/r/b', 'b')).sync()
      await disk.syncDir('/r')
      await disk.rename('/r/a', '/r/b')
    })
    expect(left).toEqual(new Set([state(['/r/a', 'a'], ['/r/b', 'b']), state(['/r/b', 'a'])]))
  })

  it('may take what a failed sync left, even when a later sync succeeded', async () => {
    const left = await survivors(async (disk) => {
      const file = await write(disk, '/r/a', 'a')
      await disk.syncDir('/r')
      disk.failNth('sync', 1, 'EIO')
      await expect(file.sync()).rejects.toMatchObject({ code: 'EIO' })
      await file.write(bytes('b'))
      await file.sync()
    })
    expect(left).toEqual(new Set([state(['/r/a', 'ab']), state(['/r/a', '\0b'])]))
  })

  it('may take a name that a failed folder sync left, even when a later one succeeded', async () => {
    const left = await survivors(async (disk) => {
      await (await write(disk, '/r/a', 'a')).sync()
      disk.failNth('syncDir', 1, 'EIO')
      await expect(disk.syncDir('/r')).rejects.toMatchObject({ code: 'EIO' })
      await disk.syncDir('/r')
    })
    expect(left).toEqual(new Set([state(), state(['/r/a', 'a'])]))
  })

  it('ends the old disk: what was under way on it never answers', async () => {
    const disk = seeded()
    await disk.makeDir('/r')
    let hasAnswered = false
    disk.crash()
    void disk.list('/r').then(() => {
      hasAnswered = true
    })
    await new Promise((resolve) => setImmediate(resolve))
    expect(hasAnswered).toBe(false)
  })
})

describe('a loss of the process alone', () => {
  it('keeps every byte written, synced or not, but they may still go with the power', async () => {
    const disk = seeded()
    await disk.makeDir('/r')
    await write(disk, '/r/a', 'ab')
    const after = disk.kill()
    expect(await after.read('/r/a')).toEqual(new Uint8Array(bytes('ab')))
    const lost = await survivors(async (other) => {
      await write(other, '/r/a', 'ab')
      expect((await other.kill().read('/r/a'))?.length).toBe(2)
    })
    expect(lost.size).toBeGreaterThan(1)
  })
})

describe('failures on demand', () => {
  it('come at the nth call of their kind, once', async () => {
    const disk = seeded()
    disk.failNth('list', 2, 'EIO')
    expect(await disk.list('/')).toEqual([])
    await expect(disk.list('/')).rejects.toMatchObject({ code: 'EIO' })
    expect(await disk.list('/')).toEqual([])
    expect(disk.failureCount).toBe(1)
  })

  it('come at every changing call of a read-only disk, while reading goes on', async () => {
    const disk = seeded()
    disk.place('/a', bytes('a'))
    disk.failChanges('EROFS')
    await expect(disk.openAppend('/a')).rejects.toMatchObject({ code: 'EROFS' })
    await expect(disk.makeDir('/r')).rejects.toMatchObject({ code: 'EROFS' })
    expect((await disk.read('/a'))?.length).toBe(1)
    disk.heal()
    await disk.makeDir('/r')
  })

  it('come as a short write at the end of the disk, then as no room', async () => {
    const disk = seeded()
    disk.setCapacity(3)
    const file = await disk.openAppend('/a')
    expect(await file.write(bytes('abcd'))).toBe(3)
    await expect(file.write(bytes('d'))).rejects.toMatchObject({ code: 'ENOSPC' })
  })

  it('settle by microtasks alone', async () => {
    const disk = seeded()
    let hasTicked = false
    setTimeout(() => {
      hasTicked = true
    }, 0)
    await disk.makeDir('/r')
    const file = await write(disk, '/r/a', 'a')
    await file.sync()
    await disk.syncDir('/r')
    expect(hasTicked).toBe(false)
  })
})
