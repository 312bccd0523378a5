// One server per rooms folder: a second is refused in a sentence, and a dead one stands in no one's way.

import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdir, mkdtemp, readdir, rm, symlink } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { StartFailure } from '../../../server/config/startFailure.ts'
import {
  lockPath,
  RoomsInUse,
  type RoomsLock,
  takeRoomsLock,
} from '../../../server/lock/roomsLock.ts'

// Processes are started here; on a machine with much else to do that takes its time.
vi.setConfig({ testTimeout: 30_000 })

let root: string
let held: RoomsLock[] = []
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'brood-'))
})
afterEach(async () => {
  for (const lock of held) await lock.release()
  held = []
  await rm(root, { recursive: true })
})

async function take(dir = root): Promise<RoomsLock> {
  const lock = await takeRoomsLock(dir)
  held.push(lock)
  return lock
}

const listening =
  "require('node:net').createServer().listen(process.argv[1], () => console.log('held'))"

/** What a server leaves that was killed: a socket in the folder at which nobody listens. */
async function leaveOver(path: string): Promise<void> {
  const holder = spawn(process.execPath, ['-e', listening, path], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  await once(holder.stdout, 'data')
  holder.kill('SIGKILL')
  await once(holder, 'exit')
}

describe('a rooms folder', () => {
  it('is refused to a second server, in a sentence that names the folder and the first', async () => {
    await take()
    const second = takeRoomsLock(root)
    await expect(second).rejects.toBeInstanceOf(RoomsInUse)
    await expect(second).rejects.toBeInstanceOf(StartFailure)
    await expect(second).rejects.toThrow(
      `The rooms folder ${root} is in use by another Broodboard (process ${process.pid}).`,
    )
  })

  it('is the same one by whatever path it is reached', async () => {
    await take()
    const other = `${root}-other`
    await symlink(root, other)
    try {
      await expect(takeRoomsLock(other)).rejects.toBeInstanceOf(RoomsInUse)
    } finally {
      await rm(other)
    }
  })

  it('is free again once the lock is released, with nothing left in it', async () => {
    const lock = await takeRoomsLock(root)
    await lock.release()
    expect(await readdir(root)).toEqual([])
    await take()
  })

  it('is taken over from a server that was killed', async () => {
    await leaveOver(join(root, '.lock'))
    expect(await readdir(root)).toEqual(['.lock'])
    await take()
    await expect(takeRoomsLock(root)).rejects.toBeInstanceOf(RoomsInUse)
    expect(await readdir(root)).toEqual(['.lock'])
  })

  it('is taken over even where the last one died while it took over', async () => {
    await leaveOver(join(root, '.lock'))
    await leaveOver(join(root, '.lock-old'))
    await take()
    expect(await readdir(root)).toEqual(['.lock'])
  })

  it('goes to exactly one of many that start at once on what a killed one left', async () => {
    for (let round = 0; round < 4; round += 1) {
      const dir = join(root, String(round))
      await mkdir(dir)
      await leaveOver(join(dir, '.lock'))
      const starts = await Promise.allSettled(Array.from({ length: 12 }, () => take(dir)))
      expect(starts.filter(({ status }) => status === 'fulfilled').length).toBe(1)
      for (const start of starts) {
        if (start.status === 'rejected') expect(start.reason).toBeInstanceOf(RoomsInUse)
      }
    }
  })

  it('with too long a path for a socket has its lock under a short name of its own', async () => {
    const long = (name: string) => join(root, name.repeat(120))
    for (const name of ['a', 'b']) await mkdir(long(name))
    expect(await lockPath(root)).toBe(join(root, '.lock'))
    const path = await lockPath(long('a'))
    expect(path.length).toBeLessThan(100)
    expect(path).not.toBe(await lockPath(long('b')))
    await take(long('a'))
    await take(long('b'))
    await expect(takeRoomsLock(long('a'))).rejects.toBeInstanceOf(RoomsInUse)
  })

  it('that does not stand is what the machine says it is', async () => {
    await expect(takeRoomsLock(join(root, 'none'))).rejects.toMatchObject({ code: 'ENOENT' })
  })
})
