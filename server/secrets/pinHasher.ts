// Hashing a PIN, slowly on purpose. Four digits are soon tried out by whoever has the file, the pepper
// and time; what keeps a PIN is the lock after wrong ones, and this only the price of a copied file.

import { type ScryptOptions, scrypt } from 'node:crypto'

/** 32 bytes; the same for the same words. `secret` is the PIN with the pepper already in it. */
export type PinHasher = (secret: Uint8Array, salt: Uint8Array) => Promise<Uint8Array>

/** 32 MiB and about a tenth of a second on a small machine; common practice, no source. */
const cost: ScryptOptions = { N: 2 ** 15, r: 8, p: 1, maxmem: 64 * 1024 * 1024 }
const hashBytes = 32

export const scryptHasher: PinHasher = (secret, salt) =>
  new Promise((resolve, reject) => {
    scrypt(secret, salt, hashBytes, cost, (error, hash) => {
      if (error === null) resolve(hash)
      else reject(error)
    })
  })
