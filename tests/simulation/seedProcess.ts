// Runs the worlds it is handed, one after the other, in a process of its own, so that a machine with
// more than one core gets through its seeds sooner. A world is alone in what it does, so its trace is
// the same in whatever process it runs. Ends when whoever began it has nothing more to ask.

import { runWorld, type WorldWishes } from './world.ts'

process.on('message', (wishes: Omit<WorldWishes, 'bug'>) => {
  void runWorld(wishes).then((outcome) => process.send?.(outcome))
})

// Told to stop in the middle of a world, whoever began it takes this process along.
process.on('disconnect', () => process.exit())
