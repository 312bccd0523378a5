// One small tree per rule of floors.ts that breaks it, and one tree that breaks none: the proof that
// an import rule can fail. Files are written to a temporary folder by imports.test.ts.

export type Files = Readonly<Record<string, string>>

const value = 'export const value = 1\n'

/** Stand-ins for the packages that rules name; what is inside them does not matter. */
export const packages: Files = {
  'package.json': JSON.stringify({
    name: 'planted',
    type: 'module',
    dependencies: { zod: '1.0.0', 'date-fns': '1.0.0', preact: '1.0.0', express: '1.0.0' },
    devDependencies: { vitest: '1.0.0' },
  }),
  ...Object.fromEntries(
    ['zod', 'date-fns', 'preact', 'express', 'vitest', 'undeclared'].flatMap((name) => [
      [`node_modules/${name}/package.json`, JSON.stringify({ name, main: 'index.js' })],
      [`node_modules/${name}/index.js`, value],
    ]),
  ),
}

/** Every import here is allowed. */
export const sound: Files = {
  'shared/base/values.ts': value,
  'shared/board/nest.ts':
    "import { z } from 'zod'\nexport type Nest = string\nexport const nest = z\n",
  'shared/care/amounts.ts': "import type { Nest } from '../board/nest.ts'\nexport type A = Nest\n",
  'shared/rules/hours.ts':
    "import { addDays } from 'date-fns'\nimport type { A } from '../care/amounts.ts'\nexport const a: A = addDays\n",
  'shared/plan/next.ts': "export { a } from '../rules/hours.ts'\n",
  'shared/views/wall.ts': "import type { Nest } from '../board/nest.ts'\nexport type W = Nest\n",
  'shared/wire/frames.ts': "import { z } from 'zod'\nexport const frame = z\n",
  'server/main.ts':
    "import { readFileSync } from 'node:fs'\nimport express from 'express'\nimport { frame } from '../shared/wire/frames.ts'\nexport default [express, frame, readFileSync]\n",
  'client/session/link.ts': "export type { W } from '../../shared/views/wall.ts'\n",
  'client/session/outbox.ts': value,
  'client/wall/main.ts': "import type { W } from '../session/link.ts'\nexport const w: W = ''\n",
  'client/hand/main.ts': "import { value } from '../session/outbox.ts'\nexport const v = value\n",
  'tests/rules/hours.test.ts':
    "import { it } from 'vitest'\nimport { a } from '../../shared/rules/hours.ts'\nit(String(a))\n",
}

/** By the name of the rule each breaks: files added to the sound tree, or put in their place. */
export const breaches: Readonly<Record<string, readonly Files[]>> = {
  'shared-stands-alone': [
    { 'shared/base/values.ts': importing('../../server/clock.ts'), 'server/clock.ts': value },
    { 'shared/views/wall.ts': importing('../../client/ui/tile.ts'), 'client/ui/tile.ts': value },
  ],
  'shared-touches-nothing': [{ 'shared/rules/due.ts': importing('node:fs') }],
  'shared-needs-few-packages': [{ 'shared/rules/due.ts': importing('express') }],
  'base-is-the-ground': [{ 'shared/base/values.ts': importingType('../board/nest.ts') }],
  'board-stands-on-base': [{ 'shared/board/state.ts': importing('../rules/hours.ts') }],
  'care-stands-on-board': [{ 'shared/care/fluids.ts': importing('../rules/hours.ts') }],
  'rules-stand-on-care': [{ 'shared/rules/due.ts': importing('../plan/next.ts') }],
  'plan-stands-on-rules': [{ 'shared/plan/hands.ts': importingType('../views/wall.ts') }],
  'views-know-no-wire': [{ 'shared/views/hand.ts': importing('../wire/frames.ts') }],
  'server-and-client-are-strangers': [
    { 'server/gateway.ts': importing('../client/session/outbox.ts') },
    { 'client/ui/tile.ts': importingType('../../server/gateway.ts'), 'server/gateway.ts': value },
  ],
  'nothing-stands-on-tests': [
    { 'server/gateway.ts': importing('../tests/support/disk.ts'), 'tests/support/disk.ts': value },
  ],
  'client-runs-in-a-browser': [{ 'client/ui/tile.ts': importing('node:path') }],
  'screens-are-apart': [
    { 'client/hand/nest.ts': importing('../wall/lane.ts'), 'client/wall/lane.ts': value },
  ],
  'session-has-no-screen': [
    { 'client/session/pending.ts': importing('preact') },
    { 'client/session/pending.ts': importing('../ui/tile.ts'), 'client/ui/tile.ts': value },
  ],
  'nobody-imports-main': [{ 'server/gateway.ts': importing('./main.ts') }],
  'no-cycles': [
    {
      'shared/rules/due.ts': importing('./late.ts'),
      'shared/rules/late.ts': importing('./due.ts'),
    },
    {
      'shared/rules/due.ts': importingType('./late.ts'),
      'shared/rules/late.ts': importingType('./due.ts'),
    },
  ],
  'zod-at-the-edges': [{ 'shared/rules/due.ts': importing('zod') }],
  'zones-in-rules-only': [{ 'client/ui/time.ts': importing('date-fns') }],
  'no-test-packages-in-the-program': [{ 'server/gateway.ts': importing('vitest') }],
  'packages-are-declared': [{ 'server/gateway.ts': importing('undeclared') }],
  'imports-lead-somewhere': [{ 'server/gateway.ts': importing('./gone.ts') }],
  'zod-stays-out-of-the-browser': [
    { 'client/ui/tile.ts': importing('../../shared/board/nest.ts') },
    {
      'client/hand/main.ts': importing('../ui/a.ts'),
      'client/ui/a.ts': importing('../../shared/wire/frames.ts'),
    },
  ],
  'the-wall-only-reads': [
    { 'client/wall/main.ts': importing('../session/outbox.ts') },
    {
      'client/wall/main.ts': importing('../ui/a.ts'),
      'client/ui/a.ts': importing('../session/outboxStore.ts'),
      'client/session/outboxStore.ts': value,
    },
  ],
}

function importing(from: string): string {
  return `import { value } from '${from}'\nexport const kept = value\n`
}

function importingType(from: string): string {
  return `import type { Kept } from '${from}'\nexport type Kept = Kept\n`
}
