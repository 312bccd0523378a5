// Reads the pixels of a screenshot: PNG of eight bits a channel, not interlaced, with or without alpha,
// which is what browsers write. By the PNG specification, third edition (W3C), sections 5, 9 and 11.

import { inflateSync } from 'node:zlib'

export type Picture = {
  readonly widthPx: number
  readonly heightPx: number
  /** 3 or 4; a pixel's bytes are red, green, blue and perhaps alpha. */
  readonly channels: number
  readonly bytes: Uint8Array
}

const channelsOf: Readonly<Record<number, number>> = { 2: 3, 6: 4 }
const signatureBytes = 8

type Chunk = { readonly type: string; readonly data: Buffer }

function chunksOf(png: Buffer): readonly Chunk[] {
  const chunks: Chunk[] = []
  for (let at = signatureBytes; at < png.length; ) {
    const length = png.readUInt32BE(at)
    const type = png.toString('latin1', at + 4, at + 8)
    chunks.push({ type, data: png.subarray(at + 8, at + 8 + length) })
    at += length + 12
  }
  return chunks
}

/** The predictor of filter type 4 (section 9.4). */
function paeth(left: number, up: number, upLeft: number): number {
  const guess = left + up - upLeft
  const byLeft = Math.abs(guess - left)
  const byUp = Math.abs(guess - up)
  const byUpLeft = Math.abs(guess - upLeft)
  if (byLeft <= byUp && byLeft <= byUpLeft) return left
  return byUp <= byUpLeft ? up : upLeft
}

type Near = { readonly left: number; readonly up: number; readonly upLeft: number }

function predicted(filter: number, { left, up, upLeft }: Near): number {
  switch (filter) {
    case 0:
      return 0
    case 1:
      return left
    case 2:
      return up
    case 3:
      return (left + up) >> 1
    case 4:
      return paeth(left, up, upLeft)
    default:
      throw new Error(`no PNG has filter ${filter}`)
  }
}

/** Undoes each line's filter; a line is one byte of filter and then its pixels. */
function unfiltered(raw: Buffer, lineBytes: number, channels: number): Uint8Array {
  const lines = raw.length / (lineBytes + 1)
  const bytes = new Uint8Array(lines * lineBytes)
  for (let line = 0; line < lines; line += 1) {
    const filter = raw[line * (lineBytes + 1)] ?? 0
    const start = line * lineBytes
    for (let at = 0; at < lineBytes; at += 1) {
      const near = {
        left: at < channels ? 0 : (bytes[start + at - channels] ?? 0),
        up: line === 0 ? 0 : (bytes[start + at - lineBytes] ?? 0),
        upLeft: line === 0 || at < channels ? 0 : (bytes[start + at - lineBytes - channels] ?? 0),
      }
      const written = raw[line * (lineBytes + 1) + 1 + at] ?? 0
      bytes[start + at] = written + predicted(filter, near)
    }
  }
  return bytes
}

export function readPng(png: Buffer): Picture {
  const chunks = chunksOf(png)
  const header = chunks.find(({ type }) => type === 'IHDR')?.data
  if (!header) throw new Error('a PNG begins with its header')
  const [widthPx, heightPx] = [header.readUInt32BE(0), header.readUInt32BE(4)]
  const channels = channelsOf[header[9] ?? 0]
  if (header[8] !== 8 || header[12] !== 0 || channels === undefined) {
    throw new Error('only eight bits a channel, in colour, not interlaced')
  }
  const packed = chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data)
  const raw = inflateSync(Buffer.concat(packed))
  return { widthPx, heightPx, channels, bytes: unfiltered(raw, widthPx * channels, channels) }
}

export type Rgb = readonly [number, number, number]

/** Each 0 to 255; black outside the picture. */
export function pixelAt({ widthPx, channels, bytes }: Picture, x: number, y: number): Rgb {
  const at = (y * widthPx + x) * channels
  return [bytes[at] ?? 0, bytes[at + 1] ?? 0, bytes[at + 2] ?? 0]
}
