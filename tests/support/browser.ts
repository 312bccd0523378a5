// Starts the machine's own Chromium for the journeys. One browser serves a whole test file; pages
// and contexts are the test's own. Finding it is chromium.mjs, shared with `npm test`.
import { type Browser, chromium } from 'playwright-core'
import { findChromium } from './chromium.mjs'

/** Chromium's first start on a busy machine. */
const launchMaxMs = 60_000

/** No GPU, and no traffic of the browser's own: a test's network is the server under test. */
const quietly = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** Starts a headless browser with an empty profile. The caller closes it. */
export function launchBrowser(): Promise<Browser> {
  // Chromium refuses its sandbox to root, which is what CI and containers run as.
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : []
  return chromium.launch({
    executablePath: findChromium(),
    args: [...asRoot, ...quietly],
    timeout: launchMaxMs,
  })
}
