// Everything served over plain HTTP: the screens, pairing, health. The board itself travels only over
// the socket. Built by main.ts; what it needs to know of the rooms comes in as `WebFace`.

import express, { type ErrorRequestHandler, type Express, type Response } from 'express'
import { loopbackHost, ownOrigins } from '../access/origins.ts'
import { type DeviceBook, pairingRoutes } from '../access/pairing.ts'
import type { Log } from '../log/log.ts'
import { healthReport, type RoomHealth } from './health.ts'
import { assets, isScreenKind, sendPage, sendSentence } from './pages.ts'
import { securityHeaders } from './securityHeaders.ts'

export type RoomFace = {
  readonly id: string
  readonly title: string
  readonly devices: DeviceBook
  health(): RoomHealth
}

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
    const rooms = face.rooms.map(({ id, title }) => ({ id, title }))
    response.set('Cache-Control', 'no-store').json({ rooms })
  })
  app.use('/api', pairingRoutes(face))
  app.get('/', (_request, response) => sendSentence(response, 200, whereToGo(face)))
  app.get('/:screen', (request, response, next) => {
    const { screen } = request.params
    if (!isScreenKind(screen)) next()
    else if (face.rooms.length === 1) sendPage(response, face.clientDir, screen)
    else sendSentence(response, 404, `Which room? ${whereToGo(face)}`)
  })
  app.get('/:room/:screen', (request, response, next) => {
    const { room, screen } = request.params
    if (!isScreenKind(screen)) next()
    else if (face.rooms.some(({ id }) => id === room)) sendPage(response, face.clientDir, screen)
    else sendSentence(response, 404, `There is no room of that name here. ${whereToGo(face)}`)
  })
  app.use((_request, response) => sendSentence(response, 404, `Nothing here. ${whereToGo(face)}`))
  app.use(lastResort(face.log))
  return app
}

function sendHealth(face: WebFace, response: Response): void {
  const report = healthReport(
    face.rooms.map((room) => room.health()),
    face.uptimeS(),
  )
  response
    .status(report.status === 'ok' ? 200 : 503)
    .set('Cache-Control', 'no-store')
    .json(report)
}

const whereToGo = (face: WebFace): string =>
  face.rooms
    .map(
      ({ id }) =>
        `The wall is at http://${loopbackHost}:${face.port}/${id}/wall, the handheld at /${id}/hand.`,
    )
    .join(' ')

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
