// The screens as files of the client's build: pages that are asked for anew each time, and assets that
// carry a hash of their content in their name and so never change.

import { existsSync } from 'node:fs'
import { join } from 'node:path'
import express, { type RequestHandler, type Response } from 'express'
import { type ScreenKind, screenKinds } from '../../shared/wire/frames.ts'

const assetsMaxAgeMs = 365 * 86_400_000

export const isScreenKind = (text: string): text is ScreenKind =>
  (screenKinds as readonly string[]).includes(text)

/** `rooms` lists the rooms of the house, for whoever named none. */
export type Page = ScreenKind | 'rooms'

/** Never stored: after an upgrade the next load must name the new assets. */
export function sendPage(response: Response, clientDir: string, page: Page): void {
  const file = `${page}.html`
  if (!existsSync(join(clientDir, file))) {
    const sentence = `The ${page} page is not built. Run "npm run build", then start again.`
    sendSentence(response, 503, sentence)
    return
  }
  response.set('Cache-Control', 'no-store')
  response.sendFile(file, { root: clientDir, cacheControl: false, lastModified: false })
}

export const assets = (clientDir: string): RequestHandler =>
  express.static(join(clientDir, 'assets'), {
    immutable: true,
    maxAge: assetsMaxAgeMs,
    index: false,
    redirect: false,
  })

/** What a person reads when there is no page: one sentence, as text. */
export function sendSentence(response: Response, status: number, sentence: string): void {
  response.status(status).set('Cache-Control', 'no-store').type('text/plain').send(`${sentence}\n`)
}
