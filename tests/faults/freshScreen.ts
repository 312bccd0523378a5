// A wall that has just been switched on: one hello, and the board the server welcomes it with. What
// it is told goes to the oracle like everything else.

import { SocketLink } from '../../client/session/socketLink.ts'
import { hashBoard } from '../../shared/board/boardHash.ts'
import { protocolVersion } from '../../shared/wire/limits.ts'
import { ListeningLink } from './listeningLink.ts'
import type { Oracle } from './oracle.ts'

type Look = { readonly version: number; readonly hash: number }

/** Where the server says the room stands, and its board's hash. Rejects when nobody welcomes it. */
export function lookFresh(origin: string, room: string, oracle: Oracle): Promise<Look> {
  const listener = { oracle, screen: 'a fresh wall', heard: () => undefined }
  const link = new ListeningLink(new SocketLink({ origin }), listener)
  return new Promise<Look>((resolve, reject) => {
    link.connect({
      opened: () =>
        link.send({
          type: 'hello',
          protocol: protocolVersion,
          room,
          screen: 'wall',
          epoch: 0,
          version: 0,
        }),
      frame: (frame) => {
        if (frame.type === 'welcome' && frame.state.type === 'board') {
          const { version, board } = frame.state
          resolve({ version, hash: hashBoard(board) })
        } else reject(new Error(`a fresh wall was met with a ${frame.type}`))
      },
      closed: () => reject(new Error('a fresh wall was not let in')),
    })
  }).finally(() => link.close())
}
