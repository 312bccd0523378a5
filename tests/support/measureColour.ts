// Colour as eyes have it: contrast by WCAG 2.2, the same colour as four kinds of eyes see it, and how far
// two colours are apart. Pure.

import type { Rgb } from './measurePng.ts'

type Matrix = readonly [Rgb, Rgb, Rgb]

/** The transfer function of sRGB (IEC 61966-2-1), 0 to 255 in, 0 to 1 out. */
function linearOf(channel: number): number {
  const share = channel / 255
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
}

const linear = ([r, g, b]: Rgb): Rgb => [linearOf(r), linearOf(g), linearOf(b)]

/** WCAG 2.2, "relative luminance"; linear light in. */
const luminance = ([r, g, b]: Rgb): number => 0.2126 * r + 0.7152 * g + 0.0722 * b

/** WCAG 2.2, "contrast ratio": 1 to 21. */
export function contrast(one: Rgb, other: Rgb): number {
  const [low = 0, high = 0] = [luminance(linear(one)), luminance(linear(other))].toSorted(
    (a, b) => a - b,
  )
  return (high + 0.05) / (low + 0.05)
}

/** `top` at this opacity over an opaque ground. */
export const over = (top: Rgb, alpha: number, ground: Rgb): Rgb => {
  const mixed = (a: number, b: number) => a * alpha + b * (1 - alpha)
  return [mixed(top[0], ground[0]), mixed(top[1], ground[1]), mixed(top[2], ground[2])]
}

/** Without colour, and the three kinds of eyes that lack one cone. */
export const eyes = ['grey', 'protan', 'deutan', 'tritan'] as const
export type Eyes = (typeof eyes)[number]

/**
 * Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
 * Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (6), 2009, at full
 * strength (severity 1.0); for linear light. Grey is luminance alone.
 */
const matrices: Readonly<Record<Eyes, Matrix>> = {
  grey: [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
}

/** From linear sRGB to XYZ under D65 (IEC 61966-2-1). */
const xyzOfRgb: Matrix = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
]
const whiteD65: Rgb = [0.9505, 1, 1.089]

const dot = (row: Rgb, of: Rgb): number => row[0] * of[0] + row[1] * of[1] + row[2] * of[2]
const times = (matrix: Matrix, of: Rgb): Rgb => [
  dot(matrix[0], of),
  dot(matrix[1], of),
  dot(matrix[2], of),
]
const clipped = (of: Rgb): Rgb => {
  const clip = (value: number) => Math.min(1, Math.max(0, value))
  return [clip(of[0]), clip(of[1]), clip(of[2])]
}

/** Linear light, as these eyes have it. */
export const seenBy = (who: Eyes, colour: Rgb): Rgb => clipped(times(matrices[who], linear(colour)))

/** CIE 1976 L*a*b* of linear light (CIE 15). */
export function labOf(light: Rgb): Rgb {
  const [x, y, z] = times(xyzOfRgb, light)
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116)
  const [fx, fy, fz] = [f(x / whiteD65[0]), f(y / whiteD65[1]), f(z / whiteD65[2])]
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)]
}

/** CIE 1976 colour difference of two L*a*b* colours. */
export const difference = (one: Rgb, other: Rgb): number =>
  Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2])
