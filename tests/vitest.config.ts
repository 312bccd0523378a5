// How vitest runs every tests/**/*.test.ts. Used by `npm test` and, for a part,
// `npm run vitest -- tests/rules`. No retries: a test that fails once in ten has found something.
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const journeys = 'tests/journeys/**/*.test.ts'

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    environment: 'node',
    pool: 'forks',
    // The smallest machine we test on has two cores.
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: 'facts',
          include: ['tests/**/*.test.ts'],
          exclude: [journeys],
          testTimeout: 30_000,
          hookTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'journeys',
          include: [journeys],
          // Real browsers and real servers, one file at a time and after everything else, so that
          // what they wait for is the room and not the machine.
          fileParallelism: false,
          maxWorkers: 1,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
