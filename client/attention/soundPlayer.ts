// Plays sounds through the browser's audio, which only starts after somebody has touched the page (or
// where the browser was started so that it need not wait). What cannot be heard now is not heard late.

import { sounds } from './patterns.ts'
import type { SoundName } from './port.ts'
import { scheduleSound } from './soundSchedule.ts'

export type PlayerGround = {
  /** Null where the browser has no audio. */
  readonly openContext: () => AudioContext | null
  readonly monoNowMs: () => number
  readonly complain: (what: string, error: unknown) => void
}

/** A sound that had to wait longer for the audio to start belongs to a moment that is over. */
const staleMs = 1_000

export class SoundPlayer {
  readonly #ground: PlayerGround
  #context: AudioContext | null = null
  #isStarting = false

  constructor(ground: PlayerGround) {
    this.#ground = ground
  }

  /** Called at every touch of the page: the first opens the audio, a later one wakes it up again. */
  touched(): void {
    this.#start(() => undefined)
  }

  play(name: SoundName): void {
    const context = this.#opened()
    if (!context) return
    if (context.state === 'running') {
      scheduleSound(context, sounds[name])
      return
    }
    const askedMs = this.#ground.monoNowMs()
    this.#start(() => {
      if (this.#ground.monoNowMs() - askedMs < staleMs) scheduleSound(context, sounds[name])
    })
  }

  #opened(): AudioContext | null {
    this.#context ??= this.#ground.openContext()
    return this.#context
  }

  /** One start at a time: a page nobody ever touches would collect them for ever. */
  #start(then: () => void): void {
    const context = this.#opened()
    if (!context || context.state === 'running' || this.#isStarting) return
    this.#isStarting = true
    context
      .resume()
      .then(then)
      .catch((error) => this.#ground.complain('the audio did not start', error))
      .finally(() => {
        this.#isStarting = false
      })
  }
}
