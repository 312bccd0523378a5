// The attention of a real browser page: Web Audio, vibration, the screen's wake lock, each left out where
// the browser has none. Opened once by a screen's main file.

import { vibrations } from './patterns.ts'
import type { AttentionPort } from './port.ts'
import { SoundPlayer } from './soundPlayer.ts'
import { type WakeGround, type WakeHold, WakeLockKeeper } from './wakeLock.ts'

type Complain = (what: string, error: unknown) => void

async function requestLock(): Promise<WakeHold> {
  const lock = await navigator.wakeLock.request('screen')
  return {
    release: () => lock.release(),
    onReleased: (listener) => lock.addEventListener('release', listener),
  }
}

const wakeGround: WakeGround = {
  // Only pages that came over a secure line have it.
  request: 'wakeLock' in navigator ? requestLock : null,
  isVisible: () => document.visibilityState === 'visible',
  onVisible: (listener) => document.addEventListener('visibilitychange', listener),
}

export function openBrowserAttention(complain: Complain): AttentionPort {
  const player = new SoundPlayer({
    openContext: () => ('AudioContext' in window ? new AudioContext() : null),
    monoNowMs: () => performance.now(),
    complain,
  })
  const wake = new WakeLockKeeper(wakeGround)
  document.addEventListener('pointerup', () => player.touched())
  return {
    sound: (name) => player.play(name),
    vibrate: (name) => {
      if ('vibrate' in navigator) navigator.vibrate([...vibrations[name]])
    },
    keepAwake: (wish) => wake.set(wish),
  }
}
