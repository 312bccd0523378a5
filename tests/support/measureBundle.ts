// Brings a module of ours into a page as one script, without a server: for code that measures a page and
// for drawings and sounds that are looked at alone.

import type { Page } from 'playwright-core'
import { build, type Rollup } from 'vite'
import { projectRoot } from '../../server/bin/launch.mjs'

/**
 * One script that sets `globalThis[name]` to what the module exports.
 * @param entry from the project's root
 */
export async function bundled(entry: string, name: string): Promise<string> {
  const made = await build({
    configFile: false,
    root: projectRoot,
    logLevel: 'error',
    build: { write: false, minify: false, lib: { entry, formats: ['iife'], name } },
  })
  const outputs = (Array.isArray(made) ? made : [made]) as Rollup.RollupOutput[]
  const script = outputs[0]?.output[0].code
  if (script === undefined) throw new Error(`${entry} came to no script`)
  return `${script}\nglobalThis.${name} = ${name}`
}

/** Runs the script in the page unless it has: a reload loses it. */
export async function brought(page: Page, name: string, script: string): Promise<void> {
  const isThere = await page.evaluate((known) => known in globalThis, name)
  if (!isThere) await page.evaluate(script)
}
