// What only the machine's own disk can show: who may read what stands on it.

import { mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { replaceFile } from '../../../server/disk/durable.ts'
import { realDisk } from '../../../server/disk/realDisk.ts'

it('makes files and folders their owner alone may open', async () => {
  const root = await mkdtemp(join(tmpdir(), 'broodboard-mode-'))
  try {
    await realDisk.makeDir(join(root, 'rooms', 'nursery'))
    await replaceFile(realDisk, join(root, 'rooms', 'secrets.json'), Buffer.from('{}'))
    expect((await stat(join(root, 'rooms', 'nursery'))).mode & 0o777).toBe(0o700)
    expect((await stat(join(root, 'rooms', 'secrets.json'))).mode & 0o777).toBe(0o600)
  } finally {
    await rm(root, { recursive: true })
  }
})
