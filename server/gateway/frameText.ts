// The one edge between socket and program: text in, a checked frame or the code of a fault out. A frame
// travels as JSON text inside the one event, both ways, so that this file and nobody else measures it,
// parses it and checks it; had socket.io parsed it, a huge or hostile value would be built before
// anyone could refuse it. Outwards one text is made and shared by every screen of the room.

import { z } from 'zod'
import { no, ok, type Result } from '../../shared/base/control.ts'
import { laneId } from '../../shared/board/parts.ts'
import {
  type Fault,
  type FromScreen,
  type FromServer,
  fromScreenSchema,
} from '../../shared/wire/frames.ts'
import { frameMaxBytes } from '../../shared/wire/limits.ts'

export const frameText = (frame: FromServer): string => JSON.stringify(frame)

/** Which command a fault is about, where that much of it could be read. */
const address = z.object({ lane: laneId, n: z.int().min(1) })

/** `parts` is what came with the socket's event: anything at all. Never throws. */
export function readFrame(parts: readonly unknown[]): Result<FromScreen, Fault> {
  const [text] = parts
  if (typeof text !== 'string' || parts.length !== 1) return no(malformed)
  if (isTooLarge(text)) return no({ type: 'fault', code: 'tooLarge' })
  const raw = parseJson(text)
  const frame = fromScreenSchema.safeParse(raw)
  if (frame.success) return ok(frame.data)
  return no({ ...malformed, ...address.safeParse(raw).data })
}

const malformed: Fault = { type: 'fault', code: 'malformed' }

/** A text has at least as many bytes as UTF-16 units, so most need no count of bytes. */
const isTooLarge = (text: string): boolean =>
  text.length > frameMaxBytes || Buffer.byteLength(text) > frameMaxBytes

/** What the text says, or undefined, which no schema takes. */
function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    if (error instanceof SyntaxError) return undefined
    throw error
  }
}
