// The words after `npm start --`: what each means, and the one sentence a wrong one gets.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StartFailure } from '../../../server/config/startFailure.ts'
import { helpText, readStartOptions, roomIdOf } from '../../../server/config/startOptions.ts'
import { roomId } from '../../../shared/board/parts.ts'

const failure = (words: readonly string[]): StartFailure => {
  try {
    readStartOptions(words)
  } catch (error) {
    if (error instanceof StartFailure) return error
    throw error
  }
  throw new Error('these words were taken')
}

describe('start options', () => {
  it('are all optional', () => {
    expect(readStartOptions([])).toEqual({
      roomsDir: './rooms',
      port: 7310,
      newRoom: null,
      speed: 1,
    })
  })

  it('are read as given', () => {
    const words = ['--rooms', '/tmp/r', '--port=0', '--new', ' Spring Nursery ', '--speed', '12.5']
    expect(readStartOptions([...words, '--restored'])).toEqual({
      isRestored: true,
      roomsDir: '/tmp/r',
      port: 0,
      newRoom: 'Spring Nursery',
      speed: 12.5,
    })
  })

  it('give way to the help, which names every one of them', () => {
    expect(readStartOptions(['--help', '--port', 'x'])).toBeNull()
    for (const option of ['--rooms', '--port', '--new', '--speed', '--restored', '--help']) {
      expect(helpText).toContain(option)
    }
  })

  it.each([
    [['--prot', '1']],
    [['folder']],
    [['--port']],
    [['--port', '65536']],
    [['--port', '-1']],
    [['--port', '1e3']],
    [['--port', '']],
    [['--speed', '0.05']],
    [['--speed', '101']],
    [['--speed', 'NaN']],
    [['--rooms', '']],
    [['--new', '']],
    [['--new', '42']],
    [['--new', 'a'.repeat(41)]],
    [['--help=no']],
  ])('refuse %j in one sentence, with the exit code of wrong usage', (words) => {
    const { message, exitCode } = failure(words)
    expect(exitCode).toBe(2)
    expect(message).toMatch(/^[^\n]+\. Run "npm start -- --help" for the options\.$/)
  })

  it('never end in anything but options or a sentence, whatever the words are', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.string(), fc.constantFrom('--new', '--port', '--'))),
        (words) => {
          try {
            readStartOptions(words)
          } catch (error) {
            expect(error).toBeInstanceOf(StartFailure)
          }
        },
      ),
    )
  })
})

describe('a room id', () => {
  it.each([
    ['Spring Nursery', 'spring-nursery'],
    ['Élan  &  Co.', 'elan-co'],
    ['a'.repeat(40), 'a'.repeat(31)],
  ])('of %j is %s', (title, id) => {
    expect(roomIdOf(title)).toBe(id)
  })

  it('is one that records and addresses can hold, or there is none', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (title) => {
        const id = roomIdOf(title)
        expect(id === null || roomId.safeParse(id).success).toBe(true)
      }),
    )
  })
})
