// Names and notes: on disk before the record that names them, and nowhere else.

import { describe, expect, it } from 'vitest'
import { privateRef } from '../../support/roomBuilder.ts'
import { addPerson, bench, brokenRule, weighed } from './bench.ts'

const x1 = privateRef(1).id
const everything = (...parts: unknown[]) => JSON.stringify(parts)

describe('a private text', () => {
  it('is flushed before the record that names it is written', async () => {
    const { take, story } = bench()
    await take('d1', 1, addPerson('Ana'))
    expect(story).toEqual([
      ...['private text written', 'private text flushed'],
      ...['written 1', 'flushed', 'seen 1', 'answered d1.1'],
    ])
  })

  it('reaches neither journal nor board, only its reference does', async () => {
    const { take, journal, scribe, privateFile } = bench()
    await take('d1', 1, addPerson('Ana'))
    expect(everything(journal.entries, scribe.durable)).not.toContain('Ana')
    expect(journal.entries[0]?.events).toMatchObject([{ type: 'PersonAdded', name: { id: 'x1' } }])
    expect(privateFile.kept.get(x1)).toEqual({ name: 'Ana' })
  })

  it('of a report that is set aside stays out of the body that is kept', async () => {
    const { take, journal, privateFile } = bench()
    const note = { note: 'found by the Lee family' }
    const seen = { type: 'BirdSeen', v: 1, bird: 'b9', signs: [], droppings: 'seen', private: note }
    await take('d1', 1, seen as never)
    expect(everything(journal.entries)).not.toContain('Lee')
    expect(privateFile.kept.get(x1)).toEqual(note)
  })

  it('rides with the record to the screens', async () => {
    const { take, frames } = bench()
    await take('d1', 1, addPerson('Ana'))
    await take('d1', 2, weighed)
    expect(frames[0]?.names).toEqual({ x1: { name: 'Ana' } })
    expect(frames[1]).not.toHaveProperty('names')
  })

  it('of a refused ask is never written', async () => {
    const { take, privateFile, story } = bench()
    await take('d1', 1, addPerson('Ana', 'vet'))
    expect(privateFile.staged.size).toBe(0)
    expect(story).toEqual(['answered d1.1'])
  })

  it('of a repeat is never written', async () => {
    const { take, privateFile } = bench()
    await take('d1', 1, addPerson('Ana'))
    await take('d1', 1, addPerson('Ana'))
    expect([...privateFile.kept.keys(), ...privateFile.staged.keys()]).toEqual(['x1'])
  })

  it('is taken back when the rule throws, and the others’ is kept', async () => {
    const decide = () => {
      throw new Error('a rule with a mistake in it')
    }
    const broken = bench({ brain: { decide } })
    await broken.take('d1', 1, addPerson('Ana'))
    expect(broken.privateFile.staged.size).toBe(0)

    const { take, privateFile } = bench()
    await Promise.all([take('d1', 1, addPerson('Ana')), take('d2', 1, brokenRule)])
    expect([...privateFile.kept.values()]).toEqual([{ name: 'Ana' }])
  })

  it('of the server’s own records goes the same way', async () => {
    const { scribe, story, journal, privateFile } = bench()
    const outcome = await scribe.record(({ keep }) => {
      const name = keep({ name: 'Mara' })
      return [
        { type: 'PersonAdded', v: 1, person: 'p1' as never, role: 'lead', signOffs: [], name },
      ]
    })
    expect(outcome).toEqual({ status: 'recorded', version: 1 })
    expect(story.slice(0, 3)).toEqual(['private text written', 'private text flushed', 'written 1'])
    expect(journal.entries[0]).toMatchObject({ cause: { type: 'server' }, by: null, device: null })
    expect(privateFile.kept.size).toBe(1)
  })

  it('of a server record that fails is taken back', async () => {
    const { scribe, privateFile } = bench()
    const outcome = await scribe.record(({ keep }) => {
      keep({ name: 'Mara' })
      throw new Error('no such room')
    })
    expect(outcome).toEqual({ status: 'failed', code: 'internal' })
    expect(privateFile.staged.size).toBe(0)
  })
})
