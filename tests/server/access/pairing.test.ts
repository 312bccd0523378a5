// Pairing: only a page of this server, opened on this machine, becomes a device by asking.

import { createServer, request, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import express from 'express'
import { afterEach, describe, expect, it } from 'vitest'
import { isOwnOrigin, mayOpenSocket } from '../../../server/access/origins.ts'
import { pairingRoutes } from '../../../server/access/pairing.ts'

let server: Server
let port: number

async function serve(roomIds: readonly string[], devicesMax = 10): Promise<void> {
  let paired = 0
  const rooms = roomIds.map((id) => ({
    id,
    devices: {
      pairDevice: async () => {
        if (paired === devicesMax) return null
        paired += 1
        return { device: `d${paired}`, token: 'k'.repeat(43) }
      },
    },
  }))
  server = createServer()
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening))
  port = (server.address() as AddressInfo).port
  server.on('request', express().use('/api', pairingRoutes({ port, rooms })))
}

afterEach(() => new Promise((closed) => server.close(closed)))

type Asked = { readonly headers?: Record<string, string>; readonly body?: string }

/** By node:http, because fetch writes some of these headers itself. */
function pair({ headers = {}, body }: Asked = {}): Promise<{ status: number; body: unknown }> {
  const own = { origin: `http://localhost:${port}` }
  const json = body === undefined ? {} : { 'content-type': 'application/json' }
  const options = { port, host: '127.0.0.1', path: '/api/pair', method: 'POST' }
  return new Promise((resolve, reject) => {
    const asked = request({ ...options, headers: { ...own, ...json, ...headers } }, (answer) => {
      let text = ''
      answer.on('data', (chunk) => {
        text += chunk
      })
      answer.on('end', () => {
        const isJson = answer.headers['content-type']?.startsWith('application/json')
        resolve({ status: answer.statusCode ?? 0, body: isJson ? JSON.parse(text) : text })
      })
    })
    asked.on('error', reject)
    asked.end(body)
  })
}

describe('pairing', () => {
  it('tells a page of this machine its device and its token', async () => {
    await serve(['larch'])
    const paired = { room: 'larch', device: 'd1', token: 'k'.repeat(43) }
    expect(await pair()).toEqual({ status: 200, body: paired })
  })

  it.each([
    ['another site', { origin: 'http://elsewhere.example' }],
    ['another port', { origin: 'http://localhost:1' }],
    ['a page in a file', { origin: 'null' }],
    ['somebody behind a proxy here', { 'x-forwarded-for': '203.0.113.9' }],
  ])('refuses %s', async (_who, headers) => {
    await serve(['larch'])
    expect((await pair({ headers })).status).toBe(403)
  })

  it('refuses a request without an origin', async () => {
    await serve(['larch'])
    const answer = await fetch(`http://127.0.0.1:${port}/api/pair`, { method: 'POST' })
    expect(answer.status).toBe(403)
  })

  it('wants the room named where there are several', async () => {
    await serve(['larch', 'alder'])
    expect((await pair()).status).toBe(400)
    expect(await pair({ body: '{"room":"alder"}' })).toMatchObject({ body: { room: 'alder' } })
  })

  it.each([
    '{"room":"oak"}',
    '{"room":"larch","token":"mine"}',
    '[]',
    '{"room":',
    `{"room":"${'x'.repeat(2_000)}"}`,
    '{"__proto__":{"room":"larch"}}',
  ])('refuses the body %s', async (body) => {
    await serve(['larch'])
    const { status } = await pair({ body })
    expect(status >= 400 && status < 500).toBe(true)
  })

  it('stops when the room has all the devices it may', async () => {
    await serve(['larch'], 1)
    await pair()
    expect((await pair()).status).toBe(409)
  })
})

describe('the origin of a socket', () => {
  it('is this server under one of its two names, or none', () => {
    expect(mayOpenSocket('http://127.0.0.1:7310', 7310)).toBe(true)
    expect(mayOpenSocket('http://localhost:7310', 7310)).toBe(true)
    expect(mayOpenSocket(undefined, 7310)).toBe(true)
    expect(mayOpenSocket('http://localhost:7311', 7310)).toBe(false)
    expect(mayOpenSocket('https://localhost:7310', 7310)).toBe(false)
    expect(mayOpenSocket('null', 7310)).toBe(false)
    expect(isOwnOrigin(undefined, 7310)).toBe(false)
  })
})
