// Every kind of fact in one plain sentence, for the journal on the desk; who said it stands beside it.
// Only ids come in: names are looked up as they are drawn, so that an erased name is erased here too.

import type { EventOf, EventType, RoomEvent } from '../../shared/board/events.ts'
import { broodLines } from './journalBroodWords.ts'
import { handLines } from './journalHandWords.ts'
import { roomLines } from './journalRoomWords.ts'
import { roundLines } from './journalRoundWords.ts'
import type { JournalSay, Lines } from './journalSay.ts'

/** Does not compile while a kind of fact has no sentence. */
const lines: Lines<EventType> = { ...roomLines, ...broodLines, ...handLines, ...roundLines }

/** Fact and sentence of the same type, which only a function of that type can pair. */
function lineOf<Type extends EventType>(type: Type, event: EventOf<Type>, say: JournalSay): string {
  const line: Lines<EventType>[Type] = lines[type]
  return line(event, say)
}

export const eventWords = (event: RoomEvent, say: JournalSay): string =>
  lineOf(event.type, event, say)
