// The real hash of a PIN: the same for the same words, another for any other.

import { expect, it } from 'vitest'
import { peppered } from '../../../server/secrets/hashes.ts'
import { scryptHasher } from '../../../server/secrets/pinHasher.ts'

const hash = async (pepper: string, pin: string, salt: string) =>
  Buffer.from(await scryptHasher(peppered(pepper, pin), Buffer.from(salt, 'hex'))).toString('hex')

it('depends on the PIN, the salt and the pepper, and on nothing else', async () => {
  const [a, b] = ['aa'.repeat(32), 'bb'.repeat(32)]
  const first = await hash(a, '1234', '00')
  expect(first).toMatch(/^[0-9a-f]{64}$/)
  expect(await hash(a, '1234', '00')).toBe(first)
  const others = [
    await hash(b, '1234', '00'),
    await hash(a, '1235', '00'),
    await hash(a, '1234', '01'),
  ]
  expect(new Set([first, ...others]).size).toBe(4)
})
