// What is served over plain HTTP, asked of a real server on loopback.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { RoomHealth } from '../../../server/webApp/health.ts'
import { createWebApp, type RoomFace } from '../../../server/webApp/webApp.ts'
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

const roomFace = (id: string, health: RoomHealth = healthy): RoomFace => ({
  id,
  title: `The ${id} room`,
  devices: { pairDevice: async () => ({ device: 'd1', token: 't'.repeat(32) }) },
  health: () => health,
})

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
    for (const path of ['/wall', '/larch/wall']) {
      const answer = await fetch(origin + path)
      expect(await answer.text()).toContain('<title>wall</title>')
      expect(answer.headers.get('cache-control')).toBe('no-store')
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

  it('ask which room where there are several', async () => {
    await serve([roomFace('larch'), roomFace('alder')])
    const answer = await fetch(`${origin}/wall`)
    expect(answer.status).toBe(404)
    expect(await answer.text()).toMatch(/^Which room\? .*\/larch\/wall.*\/alder\/wall/)
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

describe('/api/room', () => {
  it('names the rooms, so that a page without one in its address finds its own', async () => {
    await serve([roomFace('larch')])
    expect(await (await fetch(`${origin}/api/room`)).json()).toEqual({
      rooms: [{ id: 'larch', title: 'The larch room' }],
    })
  })
})
