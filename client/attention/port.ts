// What a screen can do to be noticed, and to stay lit: the whole of it. browserAttention.ts does it with
// a browser; tests write down what was asked. When any of it may happen is rule.ts's to say.

/** As heard: patterns.ts has the notes of each. */
export type SoundName = 'now' | 'soon' | 'watch' | 'saved' | 'notLive'
export type VibrationName = Exclude<SoundName, 'watch'>

/** None of it ever throws: what a device cannot do is left out. */
export type AttentionPort = {
  readonly sound: (name: SoundName) => void
  readonly vibrate: (name: VibrationName) => void
  /** Saying the same again changes nothing. */
  readonly keepAwake: (wish: 'awake' | 'mayRest') => void
}
