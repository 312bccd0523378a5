// From a folder of sources to a server that can be started: packages, then a build. Whatever fails
// on the way, a finished build that stands is taken instead: a start never takes a working room down.
// Called by start.mjs, run.mjs, build.mjs and tests/all.mjs.
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { currentBuild, ensureBuild, noteRunning, serverOf, upToDateBuild } from './builds.mjs'
import { withLaunchLock } from './launchLock.mjs'
import { ensurePackages, packagesAreCurrent } from './packages.mjs'
import { Interrupted, reasonOf, say } from './plainly.mjs'

/** The project's top folder. */
export const projectRoot = dirname(dirname(dirname(fileURLToPath(import.meta.url))))

/**
 * Readies the newest build that can be had. Throws when there is none.
 * @param {string} root
 * @returns {Promise<string>} the address of the bundled server; importing it starts it
 */
export async function prepareServer(root) {
  const build = await prepareBuild(root).catch((error) => standingBuild(root, error))
  try {
    noteRunning(root, build)
  } catch (error) {
    say(`This start could not be noted (${reasonOf(error)}); a later one may remove its build.`)
  }
  return pathToFileURL(serverOf(build)).href
}

/**
 * Installs what is missing. Throws a PlainFailure when that fails.
 * @param {string} root
 */
export async function preparePackages(root) {
  if (packagesAreCurrent(root)) return
  await withLaunchLock(join(root, '.build'), () => ensurePackages(root))
}

/**
 * Installs and builds what is missing; nothing is written when nothing is.
 * @param {string} root
 * @returns {Promise<string>} the folder of the build made from the sources as they stand
 */
export async function prepareBuild(root) {
  const ready = packagesAreCurrent(root) ? upToDateBuild(root) : undefined
  if (ready !== undefined) return ready
  return withLaunchLock(join(root, '.build'), async () => {
    await ensurePackages(root)
    return ensureBuild(root)
  })
}

/**
 * @param {string} root
 * @param {unknown} error why there is no build of the sources as they stand
 * @returns {string}
 */
function standingBuild(root, error) {
  const standing = currentBuild(root)
  if (error instanceof Interrupted || standing === undefined) throw error
  say(`${reasonOf(error)} Starting the finished build that stands here; it may be an older one.`)
  return standing
}
