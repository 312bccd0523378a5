// The three small words the whole project uses for what can go wrong by value: a result, an
// assertion for what only a mistake of ours can break, and the end of an exhaustive switch.

export type Result<T, E> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E }

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value })

export const no = <E>(error: E): { readonly ok: false; readonly error: E } => ({ ok: false, error })

/** Throws when `condition` is false: our mistake, never a person's and never the world's. */
export function assert(condition: boolean, why: string): asserts condition {
  if (!condition) throw new Error(`broken assumption: ${why}`)
}

/** Stands in the default of a switch over a union; the compiler refuses it while a case is missing. */
export function unreachable(value: never): never {
  throw new Error(`no case for ${JSON.stringify(value)}`)
}
