// The journal in words: every kind of fact has a plain sentence, and none shows an id.

import { describe, expect, it } from 'vitest'
import type { JournalSay } from '../../client/desk/journalSay.ts'
import { eventWords } from '../../client/desk/journalWords.ts'
import { eventSchema } from '../../shared/board/events.ts'
import { sentences } from './deskJournal.data.ts'

const say: JournalSay = {
  time: () => '09:10',
  person: () => 'Ana',
  nest: () => 'F',
  bird: () => 'red of F',
  incubator: () => '3',
  plan: () => 'Finch',
}

describe('a line of the journal', () => {
  it.each(sentences)('says %s in a sentence', (_type, event, words) => {
    expect(eventSchema.safeParse(event).error).toBeUndefined()
    expect(eventWords(event, say)).toBe(words)
  })

  it('is there for every kind of fact', () => {
    const kinds = eventSchema.options.map((option) => option.shape.type.value)
    expect(new Set(sentences.map(([type]) => type))).toEqual(new Set(kinds))
  })
})
