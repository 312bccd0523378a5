// The one file of secrets for all rooms. What is in it is `secretsFile.ts`'s to say, what can be asked
// of it `roomSecrets.ts`'s: nothing here opens anything by itself.

import { durableLow } from '../disk/durableLow.ts'
import { hexOf } from './hashes.ts'
import { OneAtATime } from './oneAtATime.ts'
import { RoomSecrets, type SecretsFile, type SecretsPlace } from './roomSecrets.ts'
import { emptySecrets, parseSecrets } from './secretsFile.ts'

/** Throws `DamagedFile` where the file is not whole. */
export async function openSecrets(place: SecretsPlace): Promise<Secrets> {
  const pepper = hexOf(place.chance.bytes(32))
  const file = { disk: place.disk, path: place.path, parse: parseSecrets }
  return new Secrets({
    place,
    low: await durableLow(file, emptySecrets(pepper)),
    line: new OneAtATime(),
    seenAtMs: new Map(),
  })
}

export class Secrets {
  readonly #file: SecretsFile

  constructor(file: SecretsFile) {
    this.#file = file
  }

  /** One room's part of it: nobody of another room is known there. */
  ofRoom(room: string): RoomSecrets {
    return new RoomSecrets(room, this.#file)
  }
}
