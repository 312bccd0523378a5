// A browser page on which the wall draws scenes: the wall's own files bundled as they are built, with
// no server behind them.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { build } from 'vite'
import type { Scene } from '../views/wallScenes.ts'

const projectRoot = new URL('../..', import.meta.url).pathname

const stage = fileURLToPath(new URL('./wallStage.ts', import.meta.url))

/** The style sheets of the real page, in its order. */
function styleImports(): string {
  const page = readFileSync(join(projectRoot, 'client/wall.html'), 'utf8')
  return [...page.matchAll(/rel="stylesheet" href="[.]([^"]+)"/g)]
    .map(([, path]) => `import ${JSON.stringify(join(projectRoot, 'client', path ?? ''))}\n`)
    .join('')
}

async function bundled(): Promise<{ readonly script: string; readonly style: string }> {
  const results = await build({
    configFile: false,
    root: projectRoot,
    logLevel: 'warn',
    publicDir: false,
    plugins: [
      {
        name: 'style-of-the-page',
        transform: (code, id) => (id === stage ? { code: styleImports() + code, map: null } : null),
      },
    ],
    build: {
      write: false,
      target: 'es2022',
      minify: false,
      // The font has no server to come from.
      assetsInlineLimit: 1_000_000,
      cssCodeSplit: false,
      lib: { entry: stage, formats: ['iife'], name: 'stage' },
    },
  })
  const [result] = Array.isArray(results) ? results : [results]
  if (!result || !('output' in result)) throw new Error('the stage was not bundled')
  const script = result.output.find((file) => file.type === 'chunk')
  const style = result.output.find((file) => file.fileName.endsWith('.css'))
  if (script?.type !== 'chunk' || style?.type !== 'asset') throw new Error('the stage lacks a file')
  return { script: script.code, style: String(style.source) }
}

/** An empty stage of the size of the panel. */
export async function openStage(browser: Browser): Promise<Page> {
  const { script, style } = await bundled()
  const context = await browser.newContext({
    viewport: { width: 1920, height: 1080 },
    reducedMotion: 'reduce',
  })
  const page = await context.newPage()
  page.on('pageerror', (error) => {
    throw error
  })
  await page.setContent(
    `<!doctype html><html lang="en"><head><title>Wall</title><style>${style}</style></head>` +
      '<body><main id="wall"></main></body></html>',
  )
  await page.addScriptTag({ content: script })
  return page
}

/** Draws this scene in place of the one before. */
export async function show(page: Page, scene: Scene): Promise<void> {
  await page.evaluate(
    (of) =>
      (window as unknown as { stage: { draw: (scene: Scene) => Promise<void> } }).stage.draw(of),
    scene,
  )
}
