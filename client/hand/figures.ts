// An amount typed on a pad, in millilitres with at most two figures after the point. Pure. Nothing is
// filled in, and what is not yet a number is none.

const mostWhole = 3
const mostAfterPoint = 2

/** The figures after one more key; a key that makes no sense there changes nothing. */
export function withKey(figures: string, key: string): string {
  const [whole = '', after] = figures.split('.')
  if (key === '.') return after === undefined ? `${whole === '' ? '0' : whole}.` : figures
  if (after !== undefined) return after.length < mostAfterPoint ? `${figures}${key}` : figures
  if (whole === '0') return key
  return whole.length < mostWhole ? `${figures}${key}` : figures
}

export const withoutLast = (figures: string): string => figures.slice(0, -1)

/** Whole microlitres; null while there is nothing, or nothing but zeros. */
export function microlitres(figures: string): number | null {
  const n = Math.round(Number(figures) * 1_000)
  return figures === '' || !Number.isFinite(n) || n === 0 ? null : n
}
