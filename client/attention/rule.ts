// What one thing that happened does to this screen: a sound, a vibration, both or nothing. Pure. While
// its person holds a claim nothing does, save a "now" for that nest or incubator: hands are in a nest.

import { unreachable } from '../../shared/base/control.ts'
import type { Place } from './place.ts'
import type { SoundName, VibrationName } from './port.ts'

export type AlertLevel = 'now' | 'soon' | 'watch'

/** Something that waits to be seen by this screen's person. */
export type CallChange =
  | { readonly type: 'alert'; readonly level: AlertLevel; readonly isForMyNest: boolean }
  /** Fluids or help, asked of this person among others. */
  | { readonly type: 'asked' }

export type Change =
  | CallChange
  /** The room's own answer: it is on disk. */
  | { readonly type: 'saved' }
  /** Noted on the device only; nothing is to feel like saved that is not. */
  | { readonly type: 'pending' }
  | { readonly type: 'notLive' }

export type Around = {
  readonly holdsClaim: boolean
  readonly place: Place
  /** The room is closed, or its lights are out. */
  readonly isDark: boolean
}

export type Effect = {
  readonly sound: SoundName | null
  readonly vibration: VibrationName | null
}

const nothing: Effect = { sound: null, vibration: null }
const both = (name: VibrationName): Effect => ({ sound: name, vibration: name })

/** What it would do where nothing has to be spared. */
function fullEffect(change: Change): Effect {
  switch (change.type) {
    case 'alert':
      return change.level === 'watch' ? { sound: 'watch', vibration: null } : both(change.level)
    case 'asked':
      return both('now')
    case 'saved':
      return both('saved')
    case 'notLive':
      return both('notLive')
    case 'pending':
      return nothing
    default:
      return unreachable(change)
  }
}

const mayReachFullHands = (change: Change): boolean =>
  change.type === 'alert' && change.level === 'now' && change.isForMyNest

/** Heard in the dark hours too. */
const darkSounds: readonly SoundName[] = ['now', 'notLive']

function isHeard(sound: SoundName, { place, isDark }: Around): boolean {
  return place !== 'nursery' && (!isDark || darkSounds.includes(sound))
}

export function effectOf(change: Change, around: Around): Effect {
  if (around.holdsClaim && !mayReachFullHands(change)) return nothing
  const { sound, vibration } = fullEffect(change)
  return { sound: sound !== null && isHeard(sound, around) ? sound : null, vibration }
}
