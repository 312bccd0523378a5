// A phone whose presses hear at once. A press is deaf for a moment after it has come under a finger;
// doubleTap.test.ts is about that moment, and in a walk over many pages it would be most of the time.

import type { Browser, BrowserContext } from 'playwright-core'
import { phone } from './house.ts'

export const hearsAtOnce = `
  const sheet = new CSSStyleSheet()
  sheet.replaceSync('.press { animation: none !important }')
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]
`

export async function hearingPhone(browser: Browser): Promise<BrowserContext> {
  const context = await browser.newContext(phone)
  await context.addInitScript({ content: hearsAtOnce })
  return context
}
