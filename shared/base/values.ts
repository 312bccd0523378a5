// The values every rule speaks in: instants and lengths in whole milliseconds, whole amounts with
// their unit, and ids that cannot be mistaken for one another. No clock lives here: time is handed in.

declare const brand: unique symbol
type Branded<T, Name extends string> = T & { readonly [brand]: Name }

/** Ids count up within a room and are never reused. They start with a letter that says of what. */
export type NestId = Branded<string, 'nest'>
export type BirdId = Branded<string, 'bird'>
export type PersonId = Branded<string, 'person'>
export type IncubatorId = Branded<string, 'incubator'>
export type PlanId = Branded<string, 'plan'>
/** A call for somebody: fluids, a decision, or plain help. */
export type RequestId = Branded<string, 'request'>
/** The entry in the private file that holds a name or a note; the board knows nothing but this. */
export type PrivateId = Branded<string, 'private'>

/** Milliseconds of the room's clock since 1970; it never goes back, and a demo may run it faster. */
export type InstantMs = number
/** A length of time in milliseconds. */
export type LengthMs = number

export const secondMs = 1_000
export const minuteMs = 60 * secondMs
export const hourMs = 60 * minuteMs
export const dayMs = 24 * hourMs

/** An amount is never a bare number. `n` is whole: microlitres, pieces or milligrams. */
export type AmountUnit = 'uL' | 'pieces' | 'mg'
export type Amount = { readonly unit: AmountUnit; readonly n: number }

/** `value` held between `low` and `high`, both included. */
export const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value))
