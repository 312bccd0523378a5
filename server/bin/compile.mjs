// The build itself, by Vite: every client/*.html with what it loads, and server/main.ts with every
// package inlined into one file, so that a finished build runs with no node_modules at all.
// Run as a process of its own by builds.mjs: `node compile.mjs ROOT OUT`. Chats on stdout, which
// its caller sends to stderr.
import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import process from 'node:process'
import { build } from 'vite'

const [root = '', out = ''] = process.argv.slice(2)

const screens = readdirSync(join(root, 'client')).filter((name) => name.endsWith('.html'))
if (screens.length === 0) throw new Error('There is no screen to build: client/*.html is empty.')
if (!existsSync(join(root, 'server', 'main.ts'))) throw new Error('server/main.ts is missing.')

await build({
  configFile: false,
  root: join(root, 'client'),
  base: '/',
  logLevel: 'warn',
  publicDir: false,
  build: {
    outDir: join(out, 'client'),
    emptyOutDir: true,
    target: 'es2022',
    // The pages' content security policy allows neither inline scripts nor data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    rolldownOptions: { input: screens.map((name) => join(root, 'client', name)) },
  },
})

await build({
  configFile: false,
  root,
  logLevel: 'warn',
  publicDir: false,
  ssr: { noExternal: true },
  build: {
    ssr: join(root, 'server', 'main.ts'),
    outDir: join(out, 'server'),
    target: 'node20',
    // Readable stack traces in the log are worth more here than a smaller file.
    minify: false,
    rolldownOptions: {
      platform: 'node',
      output: { entryFileNames: 'main.mjs', codeSplitting: false },
    },
  },
})
