// The edges of the device: a wake lock that the browser takes away and refuses, audio that waits for a
// touch, a storage that is switched off.

import { beforeEach, describe, expect, it } from 'vitest'
import { keepPlace, readPlace } from '../../client/attention/place.ts'
import { SoundPlayer } from '../../client/attention/soundPlayer.ts'
import { type WakeHold, WakeLockKeeper } from '../../client/attention/wakeLock.ts'
import { settled } from '../support/fakeTimers.ts'

type Lock = { isHeld: boolean; taken: () => void }

/** A page that can be hidden, in a browser that gives locks and takes them. */
class WakePage {
  isVisible = true
  refuses = false
  asked = 0
  readonly held: Lock[] = []
  #seen: () => void = () => undefined

  keeper(): WakeLockKeeper {
    return new WakeLockKeeper({
      request: () => this.#request(),
      isVisible: () => this.isVisible,
      onVisible: (listener) => {
        this.#seen = listener
      },
    })
  }

  get locks(): number {
    return this.held.filter(({ isHeld }) => isHeld).length
  }

  async show(isVisible: boolean): Promise<void> {
    this.isVisible = isVisible
    if (!isVisible) for (const lock of this.held) lock.taken()
    this.#seen()
    await settled()
  }

  async #request(): Promise<WakeHold> {
    this.asked += 1
    if (this.refuses) throw new Error('the battery is low')
    const lock: Lock = { isHeld: true, taken: () => undefined }
    this.held.push(lock)
    return {
      release: async () => {
        lock.isHeld = false
      },
      onReleased: (listener) => {
        lock.taken = () => {
          lock.isHeld = false
          listener()
        }
      },
    }
  }
}

describe('the wake lock', () => {
  let page: WakePage
  let keeper: WakeLockKeeper
  beforeEach(() => {
    page = new WakePage()
    keeper = page.keeper()
  })

  async function wish(what: 'awake' | 'mayRest'): Promise<void> {
    keeper.set(what)
    await settled()
  }

  it('is held once while it is wished, however often that is said', async () => {
    await wish('awake')
    await wish('awake')
    expect([page.asked, page.locks]).toEqual([1, 1])
    await wish('mayRest')
    expect(page.locks).toBe(0)
  })

  it('is asked for again when a hidden page is seen again', async () => {
    await wish('awake')
    await page.show(false)
    expect(page.locks).toBe(0)
    await page.show(true)
    expect([page.asked, page.locks]).toEqual([2, 1])
  })

  it('is not asked for by a hidden page, nor after the wish has gone', async () => {
    await page.show(false)
    await wish('awake')
    expect(page.asked).toBe(0)
    await wish('mayRest')
    await page.show(true)
    expect(page.asked).toBe(0)
  })

  it('that is refused breaks nothing and is not asked for every second', async () => {
    page.refuses = true
    await wish('awake')
    await wish('awake')
    expect(page.asked).toBe(1)
    page.refuses = false
    await page.show(true)
    expect(page.locks).toBe(1)
  })

  it('that comes after the wish has gone is let go at once', async () => {
    keeper.set('awake')
    keeper.set('mayRest')
    await settled()
    expect([page.asked, page.locks]).toEqual([1, 0])
  })

  it('is simply absent where the browser has none', async () => {
    const without = new WakeLockKeeper({
      request: null,
      isVisible: () => true,
      onVisible: (listener) => listener(),
    })
    without.set('awake')
    without.set('mayRest')
    await settled()
    expect(page.asked).toBe(0)
  })
})

/** As much of an audio context as the player and the schedule touch. */
class FakeAudio {
  state: 'suspended' | 'running' = 'suspended'
  currentTime = 0
  tones = 0
  resumes = 0
  #waiting: (() => void)[] = []

  resume(): Promise<void> {
    this.resumes += 1
    return new Promise((resolve) => this.#waiting.push(resolve))
  }

  async starts(): Promise<void> {
    this.state = 'running'
    for (const go of this.#waiting.splice(0)) go()
    await settled()
  }

  createPeriodicWave(): object {
    return {}
  }

  createGain(): object {
    return { gain: this.#param(), connect: (next: object) => next }
  }

  createOscillator(): object {
    const start = () => {
      this.tones += 1
    }
    return {
      frequency: this.#param(),
      setPeriodicWave: () => undefined,
      connect: (next: object) => next,
      start,
      stop: () => undefined,
    }
  }

  #param(): object {
    return { setValueAtTime: () => undefined, linearRampToValueAtTime: () => undefined }
  }
}

describe('the sound player', () => {
  let audio: FakeAudio
  let nowMs: number
  let player: SoundPlayer
  const complaints: string[] = []
  beforeEach(() => {
    audio = new FakeAudio()
    nowMs = 0
    player = new SoundPlayer({
      openContext: () => audio as unknown as AudioContext,
      monoNowMs: () => nowMs,
      complain: (what) => complaints.push(what),
    })
  })

  it('plays each pulse of a sound once the page has been touched', async () => {
    player.touched()
    await audio.starts()
    player.play('now')
    expect(audio.tones).toBe(10)
  })

  it('plays a sound for which the audio starts at once', async () => {
    player.play('soon')
    nowMs += 200
    await audio.starts()
    expect(audio.tones).toBe(3)
  })

  it('asks one start of a page nobody touches, and plays nothing late', async () => {
    for (let n = 0; n < 5; n += 1) {
      player.play('now')
      nowMs += 10_000
    }
    expect(audio.resumes).toBe(1)
    await audio.starts()
    expect(audio.tones).toBe(0)
    player.play('watch')
    expect(audio.tones).toBe(1)
  })

  it('is silent where the browser has no audio', () => {
    const silent = new SoundPlayer({
      openContext: () => null,
      monoNowMs: () => 0,
      complain: (what) => complaints.push(what),
    })
    silent.touched()
    silent.play('now')
    expect(complaints).toEqual([])
  })
})

describe('where a screen stands', () => {
  it('is the nursery until somebody says otherwise, and then what they said', () => {
    const kept = new Map<string, string>()
    const store = {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, text: string) => void kept.set(name, text),
    }
    expect(readPlace(store)).toBe('nursery')
    expect(keepPlace(store, 'lead')).toBe('kept')
    expect(readPlace(store)).toBe('lead')
    store.setItem([...kept.keys()][0] ?? '', 'a cupboard')
    expect(readPlace(store)).toBe('nursery')
  })

  it('is the nursery where the device keeps nothing', () => {
    const off = (): never => {
      throw new Error('storage is switched off')
    }
    const store = { getItem: off, setItem: off }
    expect([keepPlace(store, 'lead'), readPlace(store)]).toEqual(['notKept', 'nursery'])
  })
})
