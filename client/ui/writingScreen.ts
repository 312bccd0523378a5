// How a screen that can write comes to its session: finds its room, pairs itself, opens its outbox, and
// is paired or loaded anew where the server asks for that. What it shows is the screen's own.

import { realBrain } from '../session/realBrain.ts'
import { realTimers } from '../session/realTimers.ts'
import { Session } from '../session/session.ts'
import { SocketLink } from '../session/socketLink.ts'
import { openIndexedDbOutbox } from '../stores/indexedDbOutbox.ts'
import { keepTrying } from './keepTrying.ts'
import { reloadIfOutdated } from './outdated.ts'
import { pairAgainOnce, pairIfNew } from './pairing.ts'
import { roomOfPage } from './roomOfPage.ts'
import { startWords } from './startWords.ts'

export type WritingScreen = {
  readonly screen: 'hand' | 'desk'
  readonly complain: (what: string, error: unknown) => void
  /** One sentence on an otherwise empty page. */
  readonly sayOnly: (words: string) => void
  /** Draws the room from now on; the session is not started yet. */
  readonly show: (session: Session) => void
}

async function start({ screen, complain, sayOnly, show }: WritingScreen): Promise<void> {
  sayOnly(startWords.looking)
  const again = (what: string) => (error: unknown) => complain(what, error)
  const room = await keepTrying(() => roomOfPage(location.pathname), again('no answer about rooms'))
  if (room === null) return sayOnly(startWords.noRoom(screen))
  const store = await openIndexedDbOutbox(`broodboard ${room}`)
  const paired = await keepTrying(() => pairIfNew(store, room), again('pairing failed'))
  if (paired === 'refused') return sayOnly(startWords.notPaired)
  const ports = {
    link: new SocketLink(),
    timers: realTimers,
    chance: Math.random,
    brain: realBrain,
  }
  const session = new Session({ ...ports, complain, room, screen, store })
  session.subscribe(({ liveness }) => {
    const isUnknown = liveness.status === 'notLive' && liveness.why === 'notPaired'
    if (isUnknown) void pairAgainOnce(store, room)
    reloadIfOutdated(liveness)
  })
  show(session)
  await session.start()
}

/** Never rejects: without its own store a device cannot take part, and says so. */
export const startWritingScreen = (page: WritingScreen): void =>
  void start(page).catch((error: unknown) => {
    page.complain('the page could not start', error)
    page.sayOnly(startWords.storeFailing)
  })
