// Reading and replacing one part of a board. A board is never changed in place: every function here
// returns a new one that shares all untouched parts, which is what makes part hashes cheap to keep.

import type { BirdId, NestId, PersonId } from '../base/values.ts'
import type { Bird, Board, Nest, Person } from './state.ts'

const byNest = new WeakMap<Board['birds'], ReadonlyMap<NestId, readonly Bird[]>>()

/** The birds of a nest, in the order they were admitted; empty where there is none. */
export function birdsOf(board: Board, nest: NestId): readonly Bird[] {
  const known = byNest.get(board.birds)
  if (known) return known.get(nest) ?? []
  const index = new Map<NestId, Bird[]>()
  for (const bird of Object.values(board.birds)) {
    const brood = index.get(bird.nest)
    if (brood) brood.push(bird)
    else index.set(bird.nest, [bird])
  }
  byNest.set(board.birds, index)
  return index.get(nest) ?? []
}

/** These birds by the nest each is in now, since a bird may have moved; unknown ones are left out. */
export function byNestNow(
  board: Board,
  birds: readonly BirdId[],
): readonly { readonly nest: Nest; readonly birds: readonly BirdId[] }[] {
  return Object.values(board.nests).flatMap((nest) => {
    const here = birds.filter((bird) => board.birds[bird]?.nest === nest.id)
    return here.length > 0 ? [{ nest, birds: here }] : []
  })
}

/** The board with one nest changed; unchanged where there is no such nest. */
export function withNest(board: Board, id: NestId, change: (nest: Nest) => Nest): Board {
  const nest = board.nests[id]
  return nest ? { ...board, nests: { ...board.nests, [id]: change(nest) } } : board
}

/** The board with one bird changed; unchanged where there is no such bird. */
export function withBird(board: Board, id: BirdId, change: (bird: Bird) => Bird): Board {
  const bird = board.birds[id]
  return bird ? { ...board, birds: { ...board.birds, [id]: change(bird) } } : board
}

/** The board with one person changed; unchanged where there is no such person. */
export function withPerson(board: Board, id: PersonId, change: (person: Person) => Person): Board {
  const person = board.people[id]
  return person ? { ...board, people: { ...board.people, [id]: change(person) } } : board
}

export function withCounter(board: Board, name: keyof Board['counters'], n: number): Board {
  return { ...board, counters: { ...board.counters, [name]: Math.max(board.counters[name], n) } }
}
