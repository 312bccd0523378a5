#!/usr/bin/env node
// `npm test`: installs what is missing, finds Chromium, then runs every check there is. A check that
// fails does not hide the ones after it. Ends with one plain line, "N passed, N failed", in which
// each check before vitest counts as one. Runs before any package is installed, so it uses none.
import { onSupportedNode } from '../server/bin/nodeVersion.mjs'

onSupportedNode(async () => {
  const { runEveryCheck } = await import('./support/checks.mjs')
  process.exitCode = await runEveryCheck()
})
