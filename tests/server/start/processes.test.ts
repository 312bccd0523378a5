// What passes through the launcher's processes untouched: arguments, standard output, exit codes and
// signals; and the Node version it asks for.
import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import manifest from '../../../package.json' with { type: 'json' }
import { projectRoot } from '../../../server/bin/launch.mjs'
import { nodeVersionFault } from '../../../server/bin/nodeVersion.mjs'

const run = join(projectRoot, 'server/bin/run.mjs')
const tool = 'tests/server/start/echoTool.ts'

describe('a tool', () => {
  it('gets its arguments and gives its answer and exit code', () => {
    const args = ['--rounds', '3', '--json', 'two words', '--', '-x']
    const ended = spawnSync(process.execPath, [run, tool, ...args], { encoding: 'utf8' })
    expect(JSON.parse(ended.stdout)).toEqual(args)
    expect(ended.status).toBe(args.length)
  })

  it.each(['SIGTERM', 'SIGINT'] as const)('hears %s and ends as it likes', async (signal) => {
    const started = spawn(process.execPath, [run, tool, 'wait'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    await once(started.stdout, 'data')
    started.kill(signal)
    const [code] = await once(started, 'exit')
    expect(code).toBe(77)
  })

  it('that does not exist is refused in a sentence', () => {
    const ended = spawnSync(process.execPath, [run, 'tests/gone.ts'], { encoding: 'utf8' })
    expect(ended.status).toBe(1)
    expect(ended.stdout).toBe('')
    expect(ended.stderr).toBe('broodboard: There is no tool tests/gone.ts.\n')
  })
})

describe('the Node it runs on', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0'])('may be %s', (version) => {
    expect(nodeVersionFault(version)).toBeUndefined()
  })

  it.each(['20.18.3', '18.20.0', '8.9.4'])('is refused in a sentence when it is %s', (version) => {
    expect(nodeVersionFault(version)).toBe(
      `Broodboard needs Node 20.19 or newer, and this is Node ${version}.`,
    )
  })

  it('is the one package.json names', () => {
    expect(manifest.engines.node).toBe('>=20.19')
  })
})
