// A call in one line, as it stands in a still line, in the list of calls and over its own page.

import { unreachable } from '../../../shared/base/control.ts'
import type { CallShown } from '../../../shared/views/callsView.ts'
import { formerHelper } from '../../ui/words.ts'
import { callWords } from '../callWords.ts'

export function callTitle(call: CallShown): string {
  const label = call.nest?.label ?? ''
  switch (call.kind) {
    case 'fluids':
      return callWords.needsFluids(label)
    case 'noDroppings':
      return callWords.needsDecision(label)
    case 'help':
      return call.isByMe ? callWords.youCalled : callWords.needsHelp(call.byName ?? formerHelper)
    default:
      return unreachable(call.kind)
  }
}
