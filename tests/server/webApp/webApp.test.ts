// What is served over plain HTTP, asked of a real server on loopback.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { RoomHealth } from '../../../server/webApp/health.ts'
import { createWebApp, type RoomFace, type ServedRoom } from '../../../server/webApp/webApp.ts'
import { quietLog } from '../quietLog.ts'

let server: Server
let clientDir: string
let origin: string

const healthy: RoomHealth = {
  room: 'larch',
  season: '2026',
  epoch: 1,
  version: 12,
  journal: 'ok',
  damaged: [],
}

const roomFace = (id: string, health: RoomHealth = healthy): ServedRoom => ({
  ...{ status: 'served', id },
  title: `The ${id} room`,
  devices: { pairDevice: async () => ({ device: 'd1', token: 't'.repeat(32) }) },
  health: () => health,
})

const damaged: RoomFace = { status: 'refused', id: 'alder', why: 'A file of it is damaged.' }

async function serve(rooms: readonly RoomFace[]): Promise<void> {
  server = createServer()
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening))
  const { port } = server.address() as AddressInfo
  origin = `http://127.0.0.1:${port}`
  server.on('request', createWebApp({ clientDir, port, rooms, log: quietLog, uptimeS: () => 5 }))
}

beforeEach(() => {
  clientDir = mkdtempSync(join(tmpdir(), 'pages-'))
  mkdirSync(join(clientDir, 'assets'))
  writeFileSync(join(clientDir, 'wall.html'), '<!doctype html><title>wall</title>')
  writeFileSync(join(clientDir, 'desk.html'), '<!doctype html><title>desk</title>')
  writeFileSync(join(clientDir, 'rooms.html'), '<!doctype html><title>rooms</title>')
  writeFileSync(join(clientDir, 'assets', 'wall-abc123.js'), 'export {}')
})

afterEach(async () => {
  server.closeAllConnections()
  await new Promise((closed) => server.close(closed))
  rmSync(clientDir, { recursive: true })
})

describe('the pages', () => {
  it('are served with and without the room, and are never stored', async () => {
    await serve([roomFace('larch')])
    for (const screen of ['wall', 'desk']) {
      for (const path of [`/${screen}`, `/larch/${screen}`]) {
        const answer = await fetch(origin + path)
        expect(await answer.text()).toContain(`<title>${screen}</title>`)
        expect(answer.headers.get('cache-control')).toBe('no-store')
      }
    }
  })

  it('run nothing but our own files and talk to this server alone', async () => {
    await serve([roomFace('larch')])
    const headers = (await fetch(`${origin}/wall`)).headers
    const policy = headers.get('content-security-policy') ?? ''
    expect(policy.split(';')).toContain("script-src 'self'")
    expect(policy).toContain(`connect-src 'self' ${origin.replace('http', 'ws')}`)
    expect(policy).toContain("default-src 'none'")
    expect(policy).not.toContain('unsafe')
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('x-powered-by')).toBeNull()
    expect(headers.get('access-control-allow-origin')).toBeNull()
  })

  it('load assets that a browser keeps for good', async () => {
    await serve([roomFace('larch')])
    const answer = await fetch(`${origin}/assets/wall-abc123.js`)
    expect(answer.status).toBe(200)
    expect(answer.headers.get('cache-control')).toBe('public, max-age=31536000, immutable')
  })

  it('say in a sentence that they are not built', async () => {
    await serve([roomFace('larch')])
    const answer = await fetch(`${origin}/hand`)
    expect(answer.status).toBe(503)
    expect(await answer.text()).toBe(
      'The hand page is not built. Run "npm run build", then start again.\n',
    )
  })

  it('are a list to choose from where there are several rooms and none is named', async () => {
    await serve([roomFace('larch'), roomFace('alder')])
    for (const path of ['/', '/wall', '/hand', '/desk']) {
      const answer = await fetch(origin + path)
      expect([answer.status, answer.headers.get('cache-control')]).toEqual([200, 'no-store'])
      expect(await answer.text()).toContain('<title>rooms</title>')
    }
  })

  it('begin with the list, also of one room', async () => {
    await serve([roomFace('larch')])
    expect(await (await fetch(origin)).text()).toContain('<title>rooms</title>')
  })

  it('of a room that is not served say why and are asked for again, and the others go on', async () => {
    await serve([roomFace('larch'), damaged])
    const answer = await fetch(`${origin}/alder/wall`)
    expect([answer.status, answer.headers.get('refresh')]).toEqual([503, '30'])
    expect(await answer.text()).toBe('The room alder is not served. A file of it is damaged.\n')
    expect((await fetch(`${origin}/larch/wall`)).status).toBe(200)
    expect(await (await fetch(`${origin}/wall`)).text()).toContain('<title>rooms</title>')
  })

  it.each([
    '/nothing',
    '/oak/wall',
    '/larch/kitchen',
    '/assets/../wall.html.bak',
    '/assets/none.js',
    '/..%2f..%2fetc%2fpasswd',
    '/__proto__/wall',
  ])('answer %s with a sentence', async (path) => {
    await serve([roomFace('larch')])
    const answer = await fetch(origin + path)
    expect(answer.status).toBe(404)
    expect(answer.headers.get('content-type')).toBe('text/plain; charset=utf-8')
    expect(await answer.text()).toMatch(/^[A-Z].*\.\n$/)
  })

  it('answer an unreadable path with a sentence', async () => {
    await serve([roomFace('larch')])
    const answer = await fetch(`${origin}/%E0%A4%A/wall`)
    expect([answer.status, await answer.text()]).toEqual([400, 'That request could not be read.\n'])
  })
})

describe('/health', () => {
  it('is ok while every room can record', async () => {
    await serve([roomFace('larch')])
    const answer = await fetch(`${origin}/health`)
    expect(answer.status).toBe(200)
    expect(await answer.json()).toEqual({
      ...healthy,
      status: 'ok',
      protocol: 1,
      uptimeS: 5,
      rooms: [healthy],
    })
  })

  it('is failing when one room cannot', async () => {
    const failing: RoomHealth = { ...healthy, room: 'alder', journal: 'failing' }
    await serve([roomFace('larch'), roomFace('alder', failing)])
    const answer = await fetch(`${origin}/health`)
    expect(answer.status).toBe(503)
    expect(await answer.json()).toMatchObject({ status: 'failing', journal: 'failing' })
  })
})

describe('a room that is not served', () => {
  it('is named on /health with its reason, and the house is not well', async () => {
    await serve([damaged, roomFace('larch')])
    const answer = await fetch(`${origin}/health`)
    expect(answer.status).toBe(503)
    const { status, room, rooms } = (await answer.json()) as Record<string, unknown>
    expect([status, room]).toEqual(['failing', 'larch'])
    const why = 'A file of it is damaged.'
    expect(rooms).toEqual([{ room: 'alder', journal: 'refused', why }, healthy])
  })

  it('is among the rooms to choose from, with its reason', async () => {
    await serve([damaged, roomFace('larch')])
    expect(await (await fetch(`${origin}/api/room`)).json()).toEqual({
      rooms: [
        { id: 'alder', title: 'alder', why: 'A file of it is damaged.' },
        { id: 'larch', title: 'The larch room' },
      ],
    })
  })

  it('pairs no device', async () => {
    await serve([damaged, roomFace('larch')])
    const headers = { origin, 'content-type': 'application/json' }
    const pair = (room: string) =>
      fetch(`${origin}/api/pair`, { method: 'POST', headers, body: JSON.stringify({ room }) })
    expect([(await pair('alder')).status, (await pair('larch')).status]).toEqual([400, 200])
  })
})

describe('/api/room', () => {
  it('names the rooms, so that a page without one in its address finds its own', async () => {
    await serve([roomFace('larch')])
    expect(await (await fetch(`${origin}/api/room`)).json()).toEqual({
      rooms: [{ id: 'larch', title: 'The larch room' }],
    })
  })
})
