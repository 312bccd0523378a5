// A page that speaks another protocol than the server is out of date, and nobody stands beside a wall to
// reload it: it reloads itself, but not in a loop.

import type { Liveness } from '../session/roomSnapshot.ts'

/** A server that is still being switched may answer an old page once more. */
const pauseMs = 60_000
const mark = 'reloaded at'

/** Called at every change; does something only where the server refused this page's protocol. */
export function reloadIfOutdated(liveness: Liveness): void {
  if (liveness.status !== 'notLive' || liveness.why !== 'protocolOther') return
  const before = Number(sessionStorage.getItem(mark) ?? 0)
  if (Date.now() - before < pauseMs) return
  sessionStorage.setItem(mark, String(Date.now()))
  location.reload()
}
