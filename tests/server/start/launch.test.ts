// A start never takes a working room down: what the launcher does with packages and builds, on small
// real folders, when everything works and when an install or a build fails.
import { existsSync, mkdirSync, readdirSync, realpathSync, renameSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { currentBuild, sourceHash } from '../../../server/bin/builds.mjs'
import { prepareBuild, preparePackages, prepareServer } from '../../../server/bin/launch.mjs'
import { packagesAreCurrent } from '../../../server/bin/packages.mjs'
import { lockFile, smallProject, write } from './launchFolder.ts'

/** A lock file half written; npm refuses it at once, without asking any registry. */
const brokenLock = lockFile.slice(0, -1)

describe('packages', () => {
  it('are installed when missing, and again when the lock file changed', async () => {
    const root = smallProject()
    expect(packagesAreCurrent(root)).toBe(false)
    await preparePackages(root)
    expect(packagesAreCurrent(root)).toBe(true)
    write(root, 'package-lock.json', `${lockFile}\n`)
    expect(packagesAreCurrent(root)).toBe(false)
    await preparePackages(root)
    expect(packagesAreCurrent(root)).toBe(true)
  })

  it('stay as they were when an install fails', async () => {
    const root = smallProject()
    await preparePackages(root)
    write(root, 'node_modules/kept/here.txt', 'still here')
    write(root, 'package-lock.json', brokenLock)
    await expect(preparePackages(root)).rejects.toThrow('could not be installed')
    expect(existsSync(join(root, 'node_modules/kept/here.txt'))).toBe(true)
    expect(readdirSync(join(root, '.build'))).toEqual([])
  })

  it('come back when a start died between its two renames', async () => {
    const root = smallProject()
    await preparePackages(root)
    write(root, 'node_modules/kept/here.txt', 'still here')
    mkdirSync(join(root, '.build'), { recursive: true })
    renameSync(join(root, 'node_modules'), join(root, '.build/packages-before'))
    await preparePackages(root)
    expect(existsSync(join(root, 'node_modules/kept/here.txt'))).toBe(true)
  })
})

describe('a build', () => {
  it('is named by its sources and made once', async () => {
    const root = smallProject()
    const first = await prepareBuild(root)
    expect(basename(first)).toBe(sourceHash(root))
    write(first, 'server/mark.txt', 'not made again')
    expect(realpathSync(await prepareBuild(root))).toBe(realpathSync(first))
    expect(existsSync(join(first, 'server/mark.txt'))).toBe(true)
  })

  it('of changed sources stands beside the last one, and older ones go', async () => {
    const root = smallProject()
    const builds: string[] = []
    for (const text of ['one', 'two', 'three']) {
      write(root, 'shared/words.ts', text)
      builds.push(basename(await prepareBuild(root)))
    }
    expect(hashesIn(root)).toEqual(builds.slice(1).sort())
    expect(basename(currentBuild(root) ?? '')).toBe(builds[2])
  })

  it('that a live server serves from stays', async () => {
    const root = smallProject()
    const served = basename(fileURLToPath(new URL('..', await prepareServer(root))))
    for (const text of ['one', 'two', 'three']) {
      write(root, 'shared/words.ts', text)
      await prepareBuild(root)
    }
    expect(hashesIn(root)).toContain(served)
    expect(hashesIn(root)).toHaveLength(3)
  })

  it('that fails leaves the current one and nothing half made', async () => {
    const root = smallProject()
    const before = basename(await prepareBuild(root))
    write(root, 'client/broken.txt', '')
    await expect(prepareBuild(root)).rejects.toThrow('build failed')
    expect(basename(currentBuild(root) ?? '')).toBe(before)
    expect(hashesIn(root)).toEqual([before])
  })
})

describe('a start', () => {
  it('takes the finished build when the install fails', async () => {
    const root = smallProject()
    const build = await prepareBuild(root)
    write(root, 'package-lock.json', brokenLock)
    const server = await prepareServer(root)
    expect(fileURLToPath(server)).toBe(join(realpathSync(build), 'server/main.mjs'))
  })

  it('takes the finished build when the new one fails', async () => {
    const root = smallProject()
    const build = await prepareBuild(root)
    write(root, 'client/broken.txt', '')
    expect(fileURLToPath(await prepareServer(root))).toContain(basename(build))
  })

  it('fails in a sentence when there is nothing to fall back on', async () => {
    const root = smallProject()
    write(root, 'package-lock.json', brokenLock)
    await expect(prepareServer(root)).rejects.toThrow('could not be installed')
  })

  it('shares one install and one build with another at the same time', async () => {
    const root = smallProject()
    const [one, two] = await Promise.all([prepareServer(root), prepareServer(root)])
    expect(one).toBe(two)
    expect(hashesIn(root)).toHaveLength(1)
  })
})

function hashesIn(root: string): readonly string[] {
  return readdirSync(join(root, '.build'))
    .filter((name) => /^[0-9a-f]{16}/.test(name))
    .sort()
}
