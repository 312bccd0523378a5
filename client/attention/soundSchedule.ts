// Puts the pulses of one sound on an audio context's clock. Thin: what is heard stands in patterns.ts.
// The context may be a real one or one that renders into memory, which is how the sounds are measured.

import { fadeMs, type Pulse, type Sound } from './patterns.ts'

/** The context needs a moment between being told and its first sample. */
const leadSeconds = 0.02

/** Exactly the harmonics of the table and no others: nothing lies above the last of them. */
function waveOf(context: BaseAudioContext, harmonics: readonly number[]): PeriodicWave {
  const sines = new Float32Array([0, ...harmonics])
  return context.createPeriodicWave(new Float32Array(sines.length), sines)
}

function schedulePulse(
  context: BaseAudioContext,
  pulse: Pulse,
  { wave, loudness }: { readonly wave: PeriodicWave; readonly loudness: number },
): void {
  const start = context.currentTime + leadSeconds + pulse.startMs / 1_000
  const end = start + pulse.lengthMs / 1_000
  const fade = fadeMs / 1_000
  const tone = context.createOscillator()
  tone.setPeriodicWave(wave)
  tone.frequency.setValueAtTime(pulse.fromHz, start)
  tone.frequency.linearRampToValueAtTime(pulse.toHz, end)
  const volume = context.createGain()
  volume.gain.setValueAtTime(0, start)
  volume.gain.linearRampToValueAtTime(loudness, start + fade)
  volume.gain.setValueAtTime(loudness, end - fade)
  volume.gain.linearRampToValueAtTime(0, end)
  tone.connect(volume).connect(context.destination)
  tone.start(start)
  tone.stop(end)
}

export function scheduleSound(context: BaseAudioContext, sound: Sound): void {
  const wave = waveOf(context, sound.harmonics)
  const { loudness } = sound
  for (const pulse of sound.pulses) schedulePulse(context, pulse, { wave, loudness })
}
