// Names of files and folders, as names.ts judges them: this project's, and some that must be found.
import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { projectRoot } from '../../server/bin/launch.mjs'
import { emptyNames, strangersAtTheTop } from './names.ts'

const ours = ['server', 'client', 'shared', 'tests', 'demo-data', 'docs']

describe('the top level', () => {
  it('holds what has its place there and nothing else', () => {
    expect(strangersAtTheTop(pathsOfTheProject())).toEqual([])
  })

  it('shows a file or folder that has no place there', () => {
    const paths = [
      'README.md',
      'biome.json',
      'scripts/build.mjs',
      '.npmrc',
      'shared/base/values.ts',
    ]
    expect(strangersAtTheTop(paths)).toEqual(['biome.json', 'scripts'])
  })
})

describe('a name', () => {
  it('says what is inside, for every file and folder of ours', () => {
    const paths = pathsOfTheProject()
    expect(paths.length).toBeGreaterThan(40)
    expect(emptyNames(paths)).toEqual([])
  })

  it.each([
    'client/utils/time.ts',
    'server/roomManager.ts',
    'shared/base/index.ts',
    'tests/support/test-helpers.ts',
    'shared/common.ts',
  ])('is refused when it is %s', (path) => {
    expect(emptyNames([path])).toEqual([path])
  })

  it.each(['shared/rules/community.ts', 'client/ui/reindexing.ts'])('may be %s', (path) => {
    expect(emptyNames([path])).toEqual([])
  })
})

/** What git would keep; without git (a copied folder), what stands in our folders. */
function pathsOfTheProject(): readonly string[] {
  if (existsSync(join(projectRoot, '.git'))) {
    const args = ['ls-files', '--cached', '--others', '--exclude-standard']
    const listed = execFileSync('git', args, { cwd: projectRoot, encoding: 'utf8' })
    return listed.split('\n').filter((path) => path !== '' && existsSync(join(projectRoot, path)))
  }
  return ours
    .filter((folder) => existsSync(join(projectRoot, folder)))
    .flatMap((folder) =>
      readdirSync(join(projectRoot, folder), { recursive: true, encoding: 'utf8' }).map(
        (path) => `${folder}/${path}`,
      ),
    )
}
