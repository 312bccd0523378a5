// One past, one board: whoever stands at a version shows the same, nobody goes back, nobody skips.

import { printOf } from '../boardPrint.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import type { Screen } from '../screen.ts'
import type { Seen, Shown } from '../witness.ts'
import { leftByRemoved } from './commands.ts'

export class OneBoardEverywhere implements Invariant {
  readonly number = 5
  readonly name = 'every screen shows, at every version, the fold of the records up to it'

  step({ reference }: Scene, { shown }: Seen): Sentences {
    return shown.flatMap(({ screen, version, print }) => {
      const right = reference.printAt(version)
      if (right === undefined) return [`${screen.name} shows ${version}, which never was durable`]
      return right === print ? [] : [`${screen.name} shows another board at ${version}`]
    })
  }
}

export class TheHashTellsBoardsApart implements Invariant {
  readonly number = 5
  readonly name = 'two different boards of this room have two different hashes'
  readonly #printOf = new Map<number, number>()

  step({ serverBrain }: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, after }) => {
      const hash = serverBrain.hashBoard(after)
      const print = printOf(after)
      const before = this.#printOf.get(hash)
      this.#printOf.set(hash, before ?? print)
      const isTold = before === undefined || before === print
      return isTold ? [] : [`version ${record.version} has the hash of another board`]
    })
  }
}

type Stand = Pick<Shown, 'life' | 'epoch' | 'version'>

export class VersionsOnlyGrow implements Invariant {
  readonly number = 6
  readonly name = 'a page takes each record in its turn and never goes back'
  readonly #stands = new Map<Screen, Stand>()

  step(_scene: Scene, { shown }: Seen): Sentences {
    return shown.flatMap(({ screen, life, epoch, version, by }) => {
      const before = this.#stands.get(screen)
      this.#stands.set(screen, { life, epoch, version })
      if (before === undefined || before.life !== life || before.epoch !== epoch) return []
      const isRight = by === 'record' ? version === before.version + 1 : version >= before.version
      return isRight ? [] : [`${screen.name} went from ${before.version} to ${version} by a ${by}`]
    })
  }
}

export class TailsAreWhole implements Invariant {
  readonly number = 6
  readonly name = 'a returning screen is told every record it missed, and then goes on'
  readonly #helloVersions = new Map<string, Set<number>>()

  step({ reference }: Scene, { hellos, welcomes }: Seen): Sentences {
    for (const { device, hello } of hellos) {
      const versions = this.#helloVersions.get(device) ?? new Set<number>()
      this.#helloVersions.set(device, versions.add(hello.version))
    }
    return welcomes.flatMap(({ device, welcome: { state } }) => {
      if (state.type === 'board') return []
      const versions = state.records.map(({ version }) => version)
      const first = versions[0] ?? reference.version + 1
      const isGapFree = versions.every((version, at) => version === first + at)
      const isToTheEnd = first + versions.length - 1 === reference.version
      const isFromThere = this.#helloVersions.get(device)?.has(first - 1) ?? false
      if (isGapFree && isToTheEnd && isFromThere) return []
      return [`${device} was sent the tail ${versions} of ${reference.version}`]
    })
  }
}

export class NeverOlderThanTold implements Invariant {
  readonly number = 12
  readonly name = 'a device never shows less than it was told before'
  readonly #told = new Map<string, number>()

  step(_scene: Scene, { heard, shown }: Seen): Sentences {
    const flaws = shown.flatMap(({ screen, version, by }) => {
      const told = this.#told.get(screen.name) ?? 0
      return by === 'board' && version < told
        ? [`${screen.name} shows ${version}, told ${told}`]
        : []
    })
    for (const { device, frame } of heard) {
      if (frame.type !== 'answer' || frame.answer.status !== 'applied') continue
      this.#told.set(device, Math.max(this.#told.get(device) ?? 0, frame.answer.version))
    }
    return flaws
  }
}

export class AllScreensAgree implements Invariant {
  readonly number = 19
  readonly name = 'after trouble all screens are live and show the same'

  calm({ screens, reference }: Scene): Sentences {
    return screens.flatMap((screen) => {
      const snapshot = screen.watch?.snapshot()
      if (snapshot === undefined) return []
      const { liveness, version } = snapshot
      if (liveness.status !== 'live') return [`${screen.name} is ${JSON.stringify(liveness)}`]
      const isLast = version === reference.version
      return isLast ? nothingWrong : [`${screen.name} shows ${version} of ${reference.version}`]
    })
  }
}

export class OutboxesAreEmpty implements Invariant {
  readonly number = 19
  readonly name = 'after trouble no device owes anything'

  calm({ handhelds, reference }: Scene): Sentences {
    return handhelds.flatMap(({ name, session }) => {
      const snapshot = session?.snapshot()
      const pending = snapshot?.pending ?? []
      const left = leftByRemoved(reference.board, snapshot?.stuck ?? [])
      const stuck = snapshot?.stuck.filter(({ n }) => !left.includes(n)) ?? []
      const texts = [...pending, ...stuck].map((one) => JSON.stringify(one))
      return texts.map((text) => `${name} still owes ${text}`)
    })
  }
}
