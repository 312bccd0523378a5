// A small project in a temporary folder for the launcher to work on: no packages to fetch, and a
// compiler that writes two words. Real npm, real renames, no network.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { onTestFinished } from 'vitest'

/** Makes the build that the launcher expects, or fails when client/broken.txt stands there. */
const compiler = `
import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
const [root, out] = process.argv.slice(2)
mkdirSync(out + '/server', { recursive: true })
writeFileSync(out + '/server/main.mjs', 'export {}')
if (existsSync(root + '/client/broken.txt')) process.exit(1)
`

const manifest = { name: 'small', version: '1.0.0' }

/** What npm writes for a project that needs no packages. */
export const lockFile = JSON.stringify({
  ...manifest,
  lockfileVersion: 3,
  requires: true,
  packages: { '': manifest },
})

export function smallProject(): string {
  const root = mkdtempSync(join(tmpdir(), 'launch-'))
  onTestFinished(() => rmSync(root, { recursive: true }))
  write(root, 'package.json', JSON.stringify(manifest))
  write(root, 'package-lock.json', lockFile)
  write(root, 'server/bin/compile.mjs', compiler)
  write(root, 'client/wall.html', '<!doctype html>')
  return root
}

export function write(root: string, name: string, text: string): void {
  mkdirSync(dirname(join(root, name)), { recursive: true })
  writeFileSync(join(root, name), text)
}
