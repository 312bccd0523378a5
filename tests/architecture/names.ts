// What may stand where, by name: the fixed top level, and the names that say nothing about what a
// file holds. Pure functions over paths; names.test.ts gives them this project's.

/** The whole top level, beside dotfiles and what npm leaves; nothing else has a place there. */
const topLevel = [
  'README.md',
  'DEVELOPERS.md',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'server',
  'client',
  'shared',
  'tests',
  'demo-data',
  'docs',
]

/** Drawers: whatever has no name of its own ends in one. `index` makes a barrel. */
const emptyWords = ['util', 'utils', 'helper', 'helpers', 'common', 'manager', 'misc', 'index']

/** Paths, from the top folder, that stand at the top level and have no place there. */
export function strangersAtTheTop(paths: readonly string[]): readonly string[] {
  const names = new Set(paths.map((path) => path.split('/')[0] ?? ''))
  return [...names].filter((name) => !name.startsWith('.') && !topLevel.includes(name))
}

/** Paths of which a folder or file name has a word that says nothing: `clientManager.ts`, `utils/`. */
export function emptyNames(paths: readonly string[]): readonly string[] {
  return paths.filter((path) => wordsOf(path).some((word) => emptyWords.includes(word)))
}

/** "client/deviceManager.test.ts" -> client, device, manager, test, ts */
function wordsOf(path: string): readonly string[] {
  return path
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
}
