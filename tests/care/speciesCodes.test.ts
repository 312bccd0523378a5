// Four-letter codes against what the lists print: the rule, the exceptions, and the birds a room knows
// by name.

import { describe, expect, it } from 'vitest'
import { knownSpecies, speciesOf } from '../../shared/care/species.ts'
import { codeByRule, codeOf, speciesLists } from '../../shared/care/speciesCodes.ts'
import { exceptionChecks, plainChecks, ruleChecks } from './speciesCodes.data.ts'

describe('the rule', () => {
  it.each(ruleChecks)('makes of %s the code %s', (name, code) => {
    expect(codeByRule(name)).toBe(code)
  })

  it('asks neither capitals nor accents nor apostrophes', () => {
    expect(codeByRule("bewick's wren")).toBe(codeByRule('Bewicks Wren'))
    expect(codeByRule('Pied Águila')).toBe(codeByRule('Pied Aguila'))
  })

  it.each(['Ou', '', '  ', 'One two three four five'])('makes no code of %j', (name) => {
    expect(codeByRule(name)).toBeNull()
  })
})

describe('the lists', () => {
  it.each(exceptionChecks)('$list has $code for $name ($source)', ({ name, list, code }) => {
    expect(codeOf(name, list)).toBe(code)
  })

  it.each(plainChecks)('$list has $code for $name ($source)', ({ name, list, code }) => {
    expect(codeOf(name, list)).toBe(code)
    expect(codeByRule(name)).toBe(code)
  })

  it('never give two birds that collide by the rule one code', () => {
    for (const list of speciesLists) {
      const names = new Set(exceptionChecks.map(({ name }) => name))
      const codes = [...names].map((name) => codeOf(name, list))
      expect(new Set(codes).size).toBe(names.size)
    }
  })
})

describe('the birds a room knows by name', () => {
  it.each(knownSpecies)('$name is found by its code on either list', (species) => {
    for (const list of speciesLists) {
      expect(speciesOf(codeOf(species.name, list) ?? '')).toBe(species)
    }
  })

  it('leaves a code it does not know alone', () => {
    expect(speciesOf('ZZZZ')).toBeNull()
  })
})
