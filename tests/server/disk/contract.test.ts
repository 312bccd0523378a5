// What every disk does, the one in memory and the machine's alike.

import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type DiskPlace, disks } from '../../support/disks.ts'

const text = (bytes: Uint8Array | null) => (bytes === null ? null : Buffer.from(bytes).toString())

describe.each(disks)('%s', (_name, open) => {
  let place: DiskPlace
  beforeEach(async () => {
    place = await open()
  })
  afterEach(() => place.done())
  const at = (name: string) => join(place.root, name)
  const write = async (name: string, content: string) => {
    const file = await place.disk.openAppend(at(name))
    expect(await file.write(Buffer.from(content))).toBe(Buffer.byteLength(content))
    await file.sync()
    await file.close()
  }

  it('lists nothing where no folder is, and reads null where no file is', async () => {
    expect(await place.disk.list(at('nowhere'))).toEqual([])
    expect(await place.disk.list(place.root)).toEqual([])
    expect(await place.disk.read(at('nothing'))).toBeNull()
  })

  it('lists files and folders by code unit, only those right inside', async () => {
    await place.disk.makeDir(at('b/inner'))
    for (const name of ['a10', 'a9', 'Z', 'b/deep']) await write(name, 'x')
    expect(await place.disk.list(place.root)).toEqual(['Z', 'a10', 'a9', 'b'])
    expect(await place.disk.list(at('b'))).toEqual(['deep', 'inner'])
  })

  it('makes an empty file on opening, and appends at the end of one that stands', async () => {
    await (await place.disk.openAppend(at('log'))).close()
    expect(text(await place.disk.read(at('log')))).toBe('')
    await write('log', 'one\n')
    await write('log', 'two\n')
    expect(text(await place.disk.read(at('log')))).toBe('one\ntwo\n')
  })

  it('hands out bytes that are not its own', async () => {
    await write('log', 'one')
    const read = await place.disk.read(at('log'))
    read?.fill(0)
    expect(text(await place.disk.read(at('log')))).toBe('one')
  })

  it('replaces a file by renaming another over it', async () => {
    await write('old', 'old')
    await write('new', 'new')
    await place.disk.rename(at('new'), at('old'))
    expect(await place.disk.list(place.root)).toEqual(['old'])
    expect(text(await place.disk.read(at('old')))).toBe('new')
  })

  it('keeps a file that was opened under its old name', async () => {
    const file = await place.disk.openAppend(at('aside'))
    await place.disk.rename(at('aside'), at('log'))
    await file.write(Buffer.from('late'))
    await file.close()
    expect(text(await place.disk.read(at('log')))).toBe('late')
  })

  it('removes a file, and minds nothing where there is none', async () => {
    await write('gone', 'x')
    await place.disk.remove(at('gone'))
    await place.disk.remove(at('gone'))
    expect(await place.disk.list(place.root)).toEqual([])
  })

  it('makes folders down to the last and again without complaint, and syncs their names', async () => {
    await place.disk.makeDir(at('room/season'))
    await place.disk.makeDir(at('room/season'))
    expect(await place.disk.list(at('room'))).toEqual(['season'])
    await place.disk.syncDir(at('room'))
  })

  it('throws where the folder of a file is missing, or the file to be renamed', async () => {
    await expect(place.disk.openAppend(at('none/log'))).rejects.toMatchObject({ code: 'ENOENT' })
    await expect(place.disk.rename(at('none'), at('log'))).rejects.toMatchObject({ code: 'ENOENT' })
    await expect(place.disk.syncDir(at('none'))).rejects.toMatchObject({ code: 'ENOENT' })
  })

  it('takes nothing through a file that was closed', async () => {
    const file = await place.disk.openAppend(at('log'))
    await file.close()
    await expect(file.write(Buffer.from('x'))).rejects.toMatchObject({ code: 'EBADF' })
  })
})
