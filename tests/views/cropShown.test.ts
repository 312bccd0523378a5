import { describe, expect, it } from 'vitest'
import { cropShown } from '../../shared/views/cropShown.ts'

describe('the crop drawn beside a plan', () => {
  it.each([
    ['house finch', 'HOFI', 'songbird'],
    ['house sparrow', 'HOSP', 'songbird'],
    ['mourning dove', 'MODO', 'dove'],
    ['rock pigeon', 'ROPI', 'dove'],
    ['robin', 'AMRO', null],
    ['wren', 'CARW', null],
    ['swift', 'CHSW', null],
  ])('of a %s is that of its group, or none where none shows', (_name, code, look) => {
    expect(cropShown([code])).toBe(look)
  })

  it('is none for birds of no known species', () => {
    expect(cropShown([null, 'ZZZZ'])).toBeNull()
    expect(cropShown([])).toBeNull()
  })

  it('is that of the first bird that shows one', () => {
    expect(cropShown([null, 'AMRO', 'MODO'])).toBe('dove')
  })
})
