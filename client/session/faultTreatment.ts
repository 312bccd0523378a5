// What a command's sender does about a fault, by its code. One table, so that a new code must be given
// its place before it compiles.

import { unreachable } from '../../shared/base/control.ts'
import type { FaultCode } from '../../shared/wire/frames.ts'

/**
 * `retry`: the server cannot just now; the same again after a pause.
 * `setAside`: this one will never be taken as it is. Waiting would block every report behind it, and
 *    dropping it would lose what a person did; so its body goes aside, where people see it, and its
 *    number goes out as a withdrawal. The answer to that tells whether it had arrived after all.
 * `rewind`: the server waits for an earlier number.
 * `reconnect`: it is the link that is not right; a new hello finds out.
 * `ignore`: not about a command at all.
 */
export type Treatment = 'retry' | 'setAside' | 'rewind' | 'reconnect' | 'ignore'

export function treatmentOf(code: FaultCode): Treatment {
  switch (code) {
    case 'tooMany':
    case 'busy':
    case 'journalFailing':
    case 'internal':
      return 'retry'
    case 'malformed':
    case 'tooLarge':
    case 'laneNotYours':
    case 'notSignedIn':
    case 'readOnlyScreen':
      return 'setAside'
    case 'laneGap':
      return 'rewind'
    case 'protocolOther':
    case 'roomUnknown':
    case 'helloFirst':
    case 'notPaired':
      return 'reconnect'
    case 'notAllowed':
    case 'personUnknown':
    case 'pinWrong':
    case 'pinLocked':
      return 'ignore'
    default:
      return unreachable(code)
  }
}
