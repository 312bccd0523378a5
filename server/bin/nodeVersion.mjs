// Which Node runs this program: the one question asked before anything else is loaded.
// Written in JavaScript of 2018, so that a Node too old for the rest can still read it and answer in
// a sentence; whoever calls it loads the rest only afterwards, by import(). Called first by start.mjs, run.mjs, build.mjs and tests/all.mjs.

/** The oldest Node the packages run on; `engines` in package.json says the same. */
const oldest = { major: 20, minor: 19 }

/**
 * Returns a sentence when `version` ("20.20.2") is too old, otherwise undefined.
 * @param {string} version
 * @returns {string | undefined}
 */
export function nodeVersionFault(version) {
  const parts = version.split('.')
  const major = Number(parts[0])
  const minor = Number(parts[1])
  if (major > oldest.major) return undefined
  if (major === oldest.major && minor >= oldest.minor) return undefined
  const wanted = `${oldest.major}.${oldest.minor}`
  return `Broodboard needs Node ${wanted} or newer, and this is Node ${version}.`
}

/**
 * Runs `next` on a Node that is new enough; otherwise says why not and ends with exit code 1.
 * @param {() => Promise<unknown>} next
 */
export function onSupportedNode(next) {
  const fault = nodeVersionFault(process.versions.node)
  if (fault === undefined) {
    next()
    return
  }
  process.stderr.write(`${fault}\n`)
  process.exitCode = 1
}
