// The disk of the machine, by node:fs. Files and folders are made readable by their owner alone,
// since what people said and who may enter stands in them. No loop and no retry lives here: a short
// write is passed on as the port allows, and `durable.ts` deals with it.

import { constants, mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import type { Disk, OpenFile } from './disk.ts'

const fileMode = 0o600
const dirMode = 0o700

/** The machine's error code, such as ENOSPC, or null for what did not come from the machine. */
export const errorCode = (error: unknown): string | null =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : null

export const realDisk: Disk = { list, read, openAppend, rename, remove, makeDir, syncDir }

async function list(dir: string): Promise<readonly string[]> {
  try {
    return (await readdir(dir)).sort()
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return []
    throw error
  }
}

async function read(path: string): Promise<Uint8Array | null> {
  try {
    return await readFile(path)
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return null
    throw error
  }
}

async function openAppend(path: string): Promise<OpenFile> {
  const { O_APPEND, O_CREAT, O_WRONLY } = constants
  const handle = await open(path, O_APPEND | O_CREAT | O_WRONLY, fileMode)
  return {
    write: async (bytes) => (await handle.write(bytes)).bytesWritten,
    // The length is flushed with the data where the file grew, which is all an append needs.
    sync: () => handle.datasync(),
    close: () => handle.close(),
  }
}

async function remove(path: string): Promise<void> {
  await rm(path, { force: true })
}

async function makeDir(dir: string): Promise<void> {
  const wanted = resolve(dir)
  await makeWithThoseAbove(wanted)
  // Synced even when the folder stood already: a start that died in between may have left its name
  // in memory alone. The walk ends at the root, or where the folders are not ours to open.
  let below = wanted
  for (let above = dirname(below); above !== below; above = dirname(below)) {
    if (!(await isSynced(above))) return
    below = above
  }
}

/** Node's own recursive mkdir asks for ever where a kernel's file system says that nothing can be made. */
async function makeWithThoseAbove(dir: string): Promise<void> {
  try {
    await makeOne(dir)
  } catch (error) {
    const above = dirname(dir)
    if (errorCode(error) !== 'ENOENT' || above === dir) throw error
    await makeWithThoseAbove(above)
    await makeOne(dir)
  }
}

/** Makes one folder; one that stands already is as good. */
async function makeOne(dir: string): Promise<void> {
  try {
    await mkdir(dir, { mode: dirMode })
  } catch (error) {
    if (errorCode(error) !== 'EEXIST' || !(await stat(dir)).isDirectory()) throw error
  }
}

async function isSynced(dir: string): Promise<boolean> {
  try {
    await syncDir(dir)
    return true
  } catch (error) {
    if (errorCode(error) === 'EACCES' || errorCode(error) === 'EPERM') return false
    throw error
  }
}

async function syncDir(dir: string): Promise<void> {
  const handle = await open(dir, constants.O_RDONLY)
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
