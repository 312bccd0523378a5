// A browser on this very machine becomes a device of a room by asking for it. The token is told once
// and kept only as a hash; whoever holds it may send what people noted on that device, and no more:
// who may do what is decided per person and per command by the rules.

import express, { type Request, type Response, Router } from 'express'
import { z } from 'zod'
import { roomId } from '../../shared/board/parts.ts'
import { isFromThisMachine } from './loopback.ts'
import { isOwnOrigin } from './origins.ts'

/** The part of a room's secrets that pairing writes. */
export interface DeviceBook {
  /** Null when the room has as many devices as it may. */
  pairDevice(): Promise<{ readonly device: string; readonly token: string } | null>
}

export type PairingFace = {
  readonly port: number
  readonly rooms: readonly { readonly id: string; readonly devices: DeviceBook }[]
}

const pairBody = z.strictObject({ room: roomId.optional() }).optional()
const bodyMaxBytes = 1_024

export function pairingRoutes(face: PairingFace): Router {
  const routes = Router()
  routes.post('/pair', express.json({ limit: bodyMaxBytes }), async (request, response) => {
    await pair(face, request, response)
  })
  return routes
}

async function pair(face: PairingFace, request: Request, response: Response): Promise<void> {
  response.set('Cache-Control', 'no-store')
  if (!isFromThisMachine(request) || !isOwnOrigin(request.headers.origin, face.port)) {
    response
      .status(403)
      .json({ error: 'Only a page of this server, on this machine, pairs itself.' })
    return
  }
  const body = pairBody.safeParse(request.body)
  const room = body.success ? askedRoom(face, body.data?.room) : undefined
  if (room === undefined) {
    response.status(400).json({ error: 'Name one of the rooms of this server.' })
    return
  }
  const paired = await room.devices.pairDevice()
  if (paired === null) response.status(409).json({ error: 'This room has all the devices it may.' })
  else response.json({ room: room.id, ...paired })
}

/** Without a name the only room there is. */
const askedRoom = (face: PairingFace, asked: string | undefined) =>
  asked === undefined && face.rooms.length > 1
    ? undefined
    : face.rooms.find(({ id }) => asked === undefined || id === asked)
