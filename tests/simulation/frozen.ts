// A value that several readers share, made unchangeable all through, so that one of them cannot change
// it under the others unseen.

export function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  for (const part of Object.values(value)) frozen(part)
  return Object.freeze(value)
}
