// The numbers both ends of the wire agree on, without the schema library.

import { secondMs } from '../base/values.ts'

/** Raised when a frame changes its meaning; either side refuses another's number by name. */
export const protocolVersion = 1
/** The one socket event; what a frame is stands in its `type`. */
export const frameEvent = 'm'
export const heartbeatMs = 2 * secondMs
/** A screen that heard nothing for this long says NOT LIVE. */
export const notLiveMs = 10 * secondMs
/** A larger message is answered with a fault; the engine's own limit lies far above. */
export const frameMaxBytes = 16_384
export const enginePayloadMaxBytes = 65_536
/** Longer tails than this are sent as a snapshot instead. */
export const tailMax = 500
/** More than a person reads down a page; all of them must fit among those the room holds in memory. */
export const recordsAskedMax = 200
/** Acknowledged reports a device keeps, so that a restored server can be given its lost minutes back. */
export const keptMs = 15 * 60 * secondMs
export const outboxMax = 500
export const commandsPerSecondMax = 100
export const socketsPerDeviceMax = 3
export const screensMax = 60
