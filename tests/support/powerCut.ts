// Cuts the power under a piece of work at its nth call to the disk: the program stands still there for
// ever, and what survives is handed back on a disk of its own.

import type { FakeDisk } from './fakeDisk.ts'

export interface PowerCut {
  readonly after: FakeDisk
  /** Whether the work was through before the power went. */
  readonly isDone: boolean
}

/** Cuts at the `stopAt`th call of `work` (1 is the first), or right after it when it makes fewer. */
export async function cutPowerAt(
  disk: FakeDisk,
  stopAt: number,
  work: (disk: FakeDisk) => Promise<unknown>,
): Promise<PowerCut> {
  let cut: () => void = () => undefined
  const isCut = new Promise<false>((resolve) => {
    cut = () => resolve(false)
  })
  const stopping = disk.kill((_call, count) => {
    if (count < stopAt) return undefined
    cut()
    return new Promise<void>(() => undefined)
  })
  const isDone = await Promise.race([work(stopping).then(() => true as const), isCut])
  return { after: stopping.crash(() => undefined), isDone }
}
