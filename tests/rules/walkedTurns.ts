// Every turn of the walks, taken once for all the facts of a file that hold of single turns. Walked when
// the file is loaded, so that no one fact pays for it.

import { drawnWalks, ofAnyWalk, type Turn, walk } from './walk.ts'

export const walkedTurns: readonly Turn[] = drawnWalks().flatMap((steps) => {
  const turns: Turn[] = []
  walk(steps, (turn) => turns.push(turn))
  return turns
})

/** Whatever the walk, `fact` holds of each of its turns; where it does not, the shortest walk is told. */
export function always(fact: (turn: Turn) => void): void {
  try {
    for (const turn of walkedTurns) fact(turn)
  } catch (why) {
    ofAnyWalk((steps) => {
      walk(steps, fact)
    })
    throw why
  }
}
