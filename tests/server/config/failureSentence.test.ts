// What the world does to a start, as one sentence each.

import { describe, expect, it } from 'vitest'
import { startFailureOf } from '../../../server/config/failureSentence.ts'
import { StartFailure } from '../../../server/config/startFailure.ts'
import { DamagedFile } from '../../../server/disk/damage.ts'
import { RoomRefused } from '../../../server/room/roomRefused.ts'

const place = { roomsDir: 'rooms', port: 7310 }
const machine = (code: string, syscall: string) =>
  Object.assign(new Error(`${code}: ${syscall}`), { code, syscall })

describe('a failed start', () => {
  it.each([
    [machine('EADDRINUSE', 'listen'), /^Port 7310 is in use/],
    [machine('EACCES', 'listen'), /^Port 7310 cannot be listened on/],
    [machine('EACCES', 'mkdir'), /^The rooms folder rooms cannot be written \(EACCES\)/],
    [machine('EROFS', 'open'), /^The rooms folder rooms cannot be written \(EROFS\)/],
    [machine('ENOTDIR', 'mkdir'), /^The rooms folder rooms cannot be made/],
    [machine('ENOTEMPTY', 'rename'), /^The rooms folder rooms cannot be made/],
    [machine('ENOENT', 'mkdir'), /^The rooms folder rooms cannot be made there/],
    [machine('ENOSPC', 'write'), /^The disk that holds rooms is full/],
    [machine('EIO', 'fsync'), /^The disk that holds rooms failed/],
    [new DamagedFile('a.journal', 3, 'badLine', 'it is torn'), /a\.journal, line 3: it is torn/],
    [new RoomRefused('notWritable', 'rooms/a'), /^A room cannot be served: rooms\/a/],
    [new StartFailure('Say this.', 2), /^Say this\.$/],
  ])('by %s is said in one line', (error, sentence) => {
    const message = startFailureOf(error, place)?.message ?? ''
    expect(message).toMatch(sentence)
    expect(message).toMatch(/^[^\n]+\.$/)
  })

  it('by a mistake of ours keeps its stack', () => {
    expect(startFailureOf(new TypeError('x is undefined'), place)).toBeNull()
    expect(startFailureOf('thrown text', place)).toBeNull()
    expect(startFailureOf(machine('ERR_INVALID_ARG_TYPE', ''), place)).toBeNull()
  })
})
