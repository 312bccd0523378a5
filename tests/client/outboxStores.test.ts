// One contract for every outbox store: the one in memory, the one in the browser's database, and the
// tests' own.

import 'fake-indexeddb/auto'
import { describe, expect, it } from 'vitest'
import type { Noted, OutboxEntry, OutboxStore, StuckEntry } from '../../client/session/ports.ts'
import { openIndexedDbOutbox } from '../../client/stores/indexedDbOutbox.ts'
import { MemoryOutbox } from '../../client/stores/memoryOutbox.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { ana, applied, calledAway, claim, roomMs } from './device.ts'

let opened = 0

const stores: readonly (readonly [name: string, open: () => Promise<OutboxStore>])[] = [
  ['the outbox in memory', async () => new MemoryOutbox()],
  [
    "the outbox in the browser's database",
    () => {
      opened += 1
      return openIndexedDbOutbox(`outbox ${opened}`)
    },
  ],
  ["the tests' outbox", async () => new FakeOutboxStore()],
]

const report: Noted = {
  kind: 'report',
  by: ana,
  body: calledAway,
  notedWallMs: 1_000,
  startedWallMs: null,
  heardAtMs: roomMs,
}
const ask: Noted = { ...report, kind: 'ask', body: claim }

const answered = (entry: OutboxEntry): OutboxEntry => ({
  ...entry,
  standing: { type: 'answered', answer: applied(4), answeredWallMs: 2_000 },
})

const stuck: StuckEntry = {
  ...report,
  id: 'd7.1',
  lane: 'd7',
  n: 1,
  why: { type: 'fault', code: 'malformed' },
  number: 'owed',
}

describe.each(stores)('%s', (_name, open) => {
  it('begins empty, without a lane', async () => {
    const store = await open()
    expect(await store.load()).toEqual({
      entries: [],
      stuck: [],
      lane: null,
      lastN: 0,
      token: null,
      told: { epoch: 0, version: 0 },
    })
  })

  it('gives out the next number, each once, to callers at the same time', async () => {
    const store = await open()
    const added = await Promise.all([1, 2, 3, 4, 5].map(() => store.add(report)))
    expect(added.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5])
    expect(added[0]).toEqual({ ...report, n: 1, standing: { type: 'waiting' } })
    expect(await store.load()).toMatchObject({ entries: added, lastN: 5 })
  })

  it('gives no number out again when its entry is gone', async () => {
    const store = await open()
    await store.add(ask)
    await store.write({ remove: [1] })
    expect((await store.add(report)).n).toBe(2)
    expect(await store.load()).toMatchObject({ entries: [{ n: 2 }], lastN: 2 })
  })

  it('replaces what is put, removes what is removed, and leaves the rest', async () => {
    const store = await open()
    const [first, second, third] = await Promise.all([1, 2, 3].map(() => store.add(report)))
    if (first === undefined || third === undefined) throw new Error('three entries')
    await store.write({ put: [answered(first)], remove: [2], told: { epoch: 1, version: 4 } })
    expect(await store.load()).toMatchObject({
      entries: [answered(first), third],
      told: { epoch: 1, version: 4 },
    })
    expect(second?.n).toBe(2)
  })

  it('moves an entry aside in one step, and a new one takes its place in one step', async () => {
    const store = await open()
    await store.write({ numbering: { lane: 'd7', lastN: 0 } })
    await store.add(report)
    await store.write({ remove: [1], putStuck: [stuck] })
    expect(await store.load()).toMatchObject({ entries: [], stuck: [stuck] })
    await store.write({ putStuck: [{ ...stuck, number: 'withdrawn' }] })
    expect((await store.load()).stuck).toEqual([{ ...stuck, number: 'withdrawn' }])
    expect((await store.add(report, 'd7.1')).n).toBe(2)
    expect(await store.load()).toMatchObject({ entries: [{ n: 2 }], stuck: [] })
  })

  it('removes a stuck entry when told to', async () => {
    const store = await open()
    await store.write({ putStuck: [stuck] })
    await store.write({ removeStuck: ['d7.1'] })
    expect((await store.load()).stuck).toEqual([])
  })

  it('keeps the token', async () => {
    const store = await open()
    await store.write({ token: 'a token of sixteen or more' })
    await store.add(report)
    expect((await store.load()).token).toBe('a token of sixteen or more')
  })

  it('never goes back in one lane, nor in one epoch', async () => {
    const store = await open()
    await store.write({ numbering: { lane: 'd7', lastN: 9 }, told: { epoch: 1, version: 5 } })
    await store.write({ numbering: { lane: 'd7', lastN: 3 }, told: { epoch: 1, version: 4 } })
    expect(await store.load()).toMatchObject({ lastN: 9, told: { epoch: 1, version: 5 } })
    await store.write({ numbering: { lane: 'd8', lastN: 3 }, told: { epoch: 2, version: 1 } })
    expect(await store.load()).toMatchObject({ lastN: 3, told: { epoch: 2, version: 1 } })
  })

  it('adopts its first lane with what it has already noted', async () => {
    const store = await open()
    const entry = await store.add(report)
    const adopted = await store.adopt('d7', 0)
    expect(adopted).toMatchObject({ lane: 'd7', lastN: 1, entries: [entry], isRenumbered: false })
    expect(await store.load()).toMatchObject({ lane: 'd7', lastN: 1, entries: [entry] })
  })

  it('adopts its own lane again without a change', async () => {
    const store = await open()
    await store.adopt('d7', 0)
    await store.add(report)
    expect(await store.adopt('d7', 1)).toMatchObject({ lastN: 1, isRenumbered: false })
    expect(await store.adopt('d7', 0)).toMatchObject({ lastN: 1, isRenumbered: false })
  })

  it('puts aside what was numbered for another lane, asks not among it', async () => {
    const store = await open()
    await store.adopt('d7', 0)
    const [done] = [await store.add(report), await store.add(report), await store.add(ask)]
    await store.write({ put: [answered(done)] })
    expect(await store.adopt('d8', 6)).toMatchObject({
      lane: 'd8',
      lastN: 6,
      entries: [],
      stuck: [{ id: 'd7.2', lane: 'd7', n: 2, number: 'withdrawn', body: calledAway }],
      isRenumbered: true,
    })
    expect((await store.add(report)).n).toBe(7)
  })

  it('puts aside what was numbered behind the back of a server that is ahead', async () => {
    const store = await open()
    await store.adopt('d7', 0)
    await store.add(report)
    expect(await store.adopt('d7', 4)).toMatchObject({
      lastN: 4,
      entries: [],
      stuck: [{ id: 'd7.1' }],
      isRenumbered: true,
    })
  })
})

describe("the outbox in the browser's database", () => {
  it('is the same after a reload', async () => {
    const before = await openIndexedDbOutbox('one device')
    await before.adopt('d7', 0)
    await before.add(report)
    await before.write({ token: 'a token of sixteen or more', putStuck: [stuck] })
    const contents = await before.load()
    before.close()
    const after = await openIndexedDbOutbox('one device')
    expect(await after.load()).toEqual(contents)
    expect((await after.add(report)).n).toBe(2)
  })

  it('is one for two tabs, which never get one number', async () => {
    const [one, two] = [await openIndexedDbOutbox('tabs'), await openIndexedDbOutbox('tabs')]
    const added = await Promise.all([one, two, one, two].map((tab) => tab.add(report)))
    expect(added.map(({ n }) => n).sort()).toEqual([1, 2, 3, 4])
  })

  it('changes nothing when one part of a change fails', async () => {
    const store = await openIndexedDbOutbox('half a change')
    await store.add(report)
    const cannotBeStored = { ...stuck, body: () => undefined } as unknown as StuckEntry
    await expect(store.write({ remove: [1], putStuck: [cannotBeStored] })).rejects.toThrow()
    expect(await store.load()).toMatchObject({ entries: [{ n: 1 }], stuck: [], lastN: 1 })
  })

  it('gives no number to a note that could not be stored', async () => {
    const store = await openIndexedDbOutbox('no note')
    const cannotBeStored = { ...report, body: () => undefined } as unknown as Noted
    await expect(store.add(cannotBeStored)).rejects.toThrow()
    expect((await store.add(report)).n).toBe(1)
  })

  it('rejects once it is closed, instead of saying that it has kept something', async () => {
    const store = await openIndexedDbOutbox('closed')
    store.close()
    await expect(store.add(report)).rejects.toThrow()
  })
})
