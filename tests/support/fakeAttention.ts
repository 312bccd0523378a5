// The attention of a device that writes down what it was asked to do, in order.

import type { AttentionPort } from '../../client/attention/port.ts'

export class FakeAttention implements AttentionPort {
  readonly said: string[] = []
  isAwake = false

  sound(name: string): void {
    this.said.push(`sound ${name}`)
  }

  vibrate(name: string): void {
    this.said.push(`vibrate ${name}`)
  }

  keepAwake(wish: 'awake' | 'mayRest'): void {
    this.isAwake = wish === 'awake'
  }

  /** What was said since this was last asked. */
  taken(): readonly string[] {
    return this.said.splice(0)
  }
}
