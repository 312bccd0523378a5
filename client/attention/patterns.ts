// The notes of every sound and the beats of every vibration, as tables. A player reads them and adds
// nothing. Our own design: fundamentals from 260 to 660 Hz with harmonics and nothing above 4 kHz, so
// that no sound sits where small birds call; the most urgent has a rhythm no other has.

import type { SoundName, VibrationName } from './port.ts'

/** One tone; it glides from `fromHz` to `toHz` and has faded in and out within its length. */
export type Pulse = {
  readonly startMs: number
  readonly lengthMs: number
  readonly fromHz: number
  readonly toHz: number
}

export type Sound = {
  readonly pulses: readonly Pulse[]
  /** Of full scale, before the device's own volume. */
  readonly loudness: number
  /** How strong each multiple of the fundamental is, the fundamental first. */
  readonly harmonics: readonly number[]
}

/** Soft enough at both ends that a pulse does not click; a click is heard far above 4 kHz. */
export const fadeMs = 25

const rich = [1, 0.6, 0.4, 0.25, 0.15] as const
const soft = [1, 0.3, 0.1] as const

const steady = (startMs: number, lengthMs: number, hz: number): Pulse => ({
  startMs,
  lengthMs,
  fromHz: hz,
  toHz: hz,
})

const risingHz = [330, 392, 466, 554, 659] as const
/** Three, a breath, two: when each of the five begins. */
const threeAndTwoMs = [0, 190, 380, 760, 950] as const
const burstsMs = [0, 1_700] as const

const falling = (startMs: number, fromHz: number, toHz: number): Pulse => ({
  startMs,
  lengthMs: 420,
  fromHz,
  toHz,
})

export const sounds: Readonly<Record<SoundName, Sound>> = {
  now: {
    pulses: burstsMs.flatMap((burstMs) =>
      risingHz.map((hz, at) => steady(burstMs + (threeAndTwoMs[at] ?? 0), 130, hz)),
    ),
    loudness: 0.5,
    harmonics: rich,
  },
  soon: {
    pulses: [steady(0, 200, 440), steady(420, 200, 370), steady(840, 200, 440)],
    loudness: 0.35,
    harmonics: rich,
  },
  watch: { pulses: [steady(0, 260, 330)], loudness: 0.25, harmonics: rich },
  saved: { pulses: [steady(0, 70, 262)], loudness: 0.25, harmonics: soft },
  notLive: {
    pulses: [falling(0, 523, 392), falling(560, 392, 294)],
    loudness: 0.4,
    harmonics: rich,
  },
}

/** On, off, on, … in milliseconds, as a browser takes it. */
export const vibrations: Readonly<Record<VibrationName, readonly number[]>> = {
  now: [200, 90, 200, 90, 200, 350, 200, 90, 200],
  soon: [200, 200, 200],
  saved: [40],
  notLive: [600],
}

/** Sounded again so long after, while it stands; the others are said once. */
export const repeatMs: Readonly<Partial<Record<SoundName, number>>> = {
  now: 10_000,
  notLive: 20_000,
}
