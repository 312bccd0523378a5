// One launcher at a time: the lock folder between live launchers, and after dead ones.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it, onTestFinished } from 'vitest'
import { withLaunchLock } from '../../../server/bin/launchLock.mjs'
import { write } from './launchFolder.ts'

it('lets one work at a time', async () => {
  const folder = emptyFolder()
  let workingNow = 0
  let workingMax = 0
  const work = async () => {
    workingNow += 1
    workingMax = Math.max(workingMax, workingNow)
    await new Promise((resolve) => setImmediate(resolve))
    workingNow -= 1
  }
  await Promise.all([1, 2, 3].map(() => withLaunchLock(folder, work)))
  expect(workingMax).toBe(1)
  expect(existsSync(join(folder, 'lock'))).toBe(false)
})

it('is given back when the work fails', async () => {
  const folder = emptyFolder()
  const failing = withLaunchLock(folder, () => Promise.reject(new Error('no space left')))
  await expect(failing).rejects.toThrow('no space left')
  expect(await withLaunchLock(folder, async () => 'next')).toBe('next')
})

it('is taken over from a launcher that died with it', async () => {
  const folder = emptyFolder()
  const { pid } = spawnSync(process.execPath, ['--version'])
  write(folder, `lock/${pid}-1`, '')
  expect(await withLaunchLock(folder, async () => 'ours')).toBe('ours')
})

it('is taken over from a launcher that died before it signed', async () => {
  const folder = emptyFolder()
  write(folder, 'lock/signature', '')
  rmSync(join(folder, 'lock/signature'))
  expect(await withLaunchLock(folder, async () => 'ours')).toBe('ours')
})

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'launch-lock-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  return folder
}
