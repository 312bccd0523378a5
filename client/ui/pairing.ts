// Making this browser a device of the room, once: a browser on the server's own machine asks and is
// given its token, which is kept with the outbox, so that both live and die together.

import type { OutboxStore } from '../session/ports.ts'

/** `refused`: this browser may not pair itself, and asking again will not change that. */
export type Paired = 'paired' | 'refused'

async function askForToken(room: string): Promise<string | null> {
  const answer = await fetch('/api/pair', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ room }),
  })
  if (answer.status === 403 || answer.status === 409) return null
  if (!answer.ok) throw new Error(`/api/pair answered ${answer.status}`)
  const { token } = (await answer.json()) as { token: string }
  return token
}

/** Gets a new token and keeps it; rejects when the server or the store fails. */
async function pairAnew(store: OutboxStore, room: string): Promise<Paired> {
  const token = await askForToken(room)
  if (token === null) return 'refused'
  await store.write({ token })
  return 'paired'
}

/** Pairs only a browser that has no token yet. */
export async function pairIfNew(store: OutboxStore, room: string): Promise<Paired> {
  const { token } = await store.load()
  return token === null ? pairAnew(store, room) : 'paired'
}

/** A server that no longer knows this device, as after a new rooms folder: paired anew, once a tab. */
export async function pairAgainOnce(store: OutboxStore, room: string): Promise<void> {
  const mark = `paired again ${room}`
  if (sessionStorage.getItem(mark) !== null) return
  sessionStorage.setItem(mark, 'yes')
  if ((await pairAnew(store, room)) === 'paired') location.reload()
}
