// Everything served over plain HTTP: the screens, the list of rooms, pairing, health. The board itself travels only over
// the socket. Built by main.ts; what it needs to know of the rooms comes in as `WebFace`.

import express, { type ErrorRequestHandler, type Express, type Response } from 'express'
import type { ScreenKind } from '../../shared/wire/frames.ts'
import { loopbackHost, ownOrigins } from '../access/origins.ts'
import { type DeviceBook, pairingRoutes } from '../access/pairing.ts'
import type { Log } from '../log/log.ts'
import { healthReport, type RoomHealth } from './health.ts'
import { assets, isScreenKind, sendPage, sendSentence } from './pages.ts'
import { securityHeaders } from './securityHeaders.ts'

export type ServedRoom = {
  readonly status: 'served'
  readonly id: string
  readonly title: string
  readonly devices: DeviceBook
  health(): RoomHealth
}

/** A room of the house that could not be opened: it is named wherever it would be looked for. */
export type RefusedRoom = {
  readonly status: 'refused'
  readonly id: string
  /** A whole sentence. */
  readonly why: string
}

export type RoomFace = ServedRoom | RefusedRoom

export type WebFace = {
  /** The folder of built pages. */
  readonly clientDir: string
  readonly port: number
  readonly rooms: readonly RoomFace[]
  readonly log: Log
  uptimeS(): number
}

export function createWebApp(face: WebFace): Express {
  const app = express()
  app.disable('x-powered-by')
  app.use(securityHeaders(ownOrigins(face.port).map((origin) => origin.replace('http', 'ws'))))
  app.use('/assets', assets(face.clientDir))
  app.get('/health', (_request, response) => sendHealth(face, response))
  app.get('/api/room', (_request, response) => {
    response.set('Cache-Control', 'no-store').json({ rooms: face.rooms.map(listed) })
  })
  app.use('/api', pairingRoutes({ port: face.port, rooms: face.rooms.filter(isServed) }))
  app.get('/', (_request, response) => sendPage(response, face.clientDir, 'rooms'))
  app.get('/:screen', (request, response, next) => {
    const { screen } = request.params
    if (!isScreenKind(screen)) next()
    else if (face.rooms.length > 1) sendPage(response, face.clientDir, 'rooms')
    else sendScreen(face, response, { room: face.rooms[0], screen })
  })
  app.get('/:room/:screen', (request, response, next) => {
    const { room: asked, screen } = request.params
    const room = face.rooms.find(({ id }) => id === asked)
    if (isScreenKind(screen)) sendScreen(face, response, { room, screen })
    else next()
  })
  app.use((_request, response) => sendSentence(response, 404, `Nothing here. ${whereToGo(face)}`))
  app.use(lastResort(face.log))
  return app
}

/** A screen that waits for its room to be mended asks again by itself: nobody stands beside a wall. */
const askAgainS = 30

type Wanted = { readonly room: RoomFace | undefined; readonly screen: ScreenKind }

function sendScreen(face: WebFace, response: Response, { room, screen }: Wanted): void {
  if (room === undefined) {
    sendSentence(response, 404, `There is no room of that name here. ${whereToGo(face)}`)
  } else if (room.status === 'refused') {
    response.set('Refresh', `${askAgainS}`)
    sendSentence(response, 503, `The room ${room.id} is not served. ${room.why}`)
  } else sendPage(response, face.clientDir, screen)
}

const isServed = (room: RoomFace): room is ServedRoom => room.status === 'served'

/** As the list of rooms shows it; a room that is not served has its id for a title, and says why. */
const listed = (room: RoomFace) =>
  isServed(room)
    ? { id: room.id, title: room.title }
    : { id: room.id, title: room.id, why: room.why }

function sendHealth(face: WebFace, response: Response): void {
  const rooms = face.rooms.map((room) =>
    isServed(room)
      ? room.health()
      : ({ room: room.id, journal: 'refused', why: room.why } as const),
  )
  const report = healthReport(rooms, face.uptimeS())
  response
    .status(report.status === 'ok' ? 200 : 503)
    .set('Cache-Control', 'no-store')
    .json(report)
}

const whereToGo = (face: WebFace): string =>
  `The rooms are listed at http://${loopbackHost}:${face.port}/.`

/** Express calls a handler of four parameters with whatever the others threw. */
const lastResort =
  (log: Log): ErrorRequestHandler =>
  (error, _request, response, _next) => {
    const status = statusOf(error)
    if (status === 500) log.error({ err: error }, 'a request failed')
    if (response.headersSent) response.destroy()
    else
      sendSentence(
        response,
        status,
        status === 500 ? 'Something broke here.' : 'That request could not be read.',
      )
  }

/** The parsers put the status of a bad request on what they throw. */
function statusOf(error: unknown): number {
  const status = error instanceof Error && 'status' in error ? Number(error.status) : 500
  return status >= 400 && status < 500 ? status : 500
}
