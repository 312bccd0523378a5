// A hash for telling two boards apart, quick enough for every screen. It guards against mistakes,
// not against malice: the journal has a cryptographic chain of its own on the server.

/** The value as text in which equal values are equal strings: keys in order, undefined left out. */
export function canonical(value: unknown): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value) ?? 'null'
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${canonical(field)}`)
  return `{${fields.join(',')}}`
}

/**
 * 53 bits of a text, as a whole number below 2^53, so that sums of hashes can be kept modulo 2^53
 * without losing a bit. Two 32-bit multiply-xor lanes over UTF-16 units, mixed at the end.
 */
export function hashText(text: string): number {
  let high = 0x9e3779b9
  let low = 0x85ebca6b
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at)
    high = Math.imul(high ^ unit, 0xc2b2ae35)
    low = Math.imul(low ^ unit, 0x27d4eb2f)
  }
  high = Math.imul(high ^ (high >>> 15), 0x2c1b3c6d) ^ Math.imul(low ^ (low >>> 13), 0x297a2d39)
  low = Math.imul(low ^ (low >>> 15), 0x2c1b3c6d) ^ Math.imul(high ^ (high >>> 13), 0x297a2d39)
  return (high & 0x1fffff) * 0x1_0000_0000 + (low >>> 0)
}
