// The outline of a mouth around words: tips at half height, lips that bow, and flat where the words
// stand. One formula for every width, so a mouth around three labels is the same mouth, longer.

/** Rim of a late mouth, of its height. */
const rimShare = 0.085

export const rimOf = (height: number): number => rimShare * height
/** White space in a mouth, left and right together: the words stand where it is high enough. */
export const mouthPadding = (height: number): number => 0.98 * height
/** In a mouth that is only an outline: clear of it, because nothing dark lies between. */
export const outlinePadding = (height: number): number => 1.3 * height

const round = (n: number): number => Math.round(n * 10) / 10

/** An SVG path of an open mouth in a box of this width and height, a rim's half inside it. */
export function mouthPath(width: number, height: number, rim: number): string {
  const edge = rim / 2
  const left = edge
  const right = width - edge
  const middle = height / 2
  const lip = middle - edge
  const slope = Math.min((width - rim) / 2, 0.8 * height)
  const half = slope / 2
  const bow = lip * 0.88
  const points = (y: (rise: number) => number, from: number, to: number, sign: 1 | -1) =>
    `Q${round(from + sign * half)},${round(y(bow))} ${round(from + sign * slope)},${round(y(lip))}` +
    ` H${round(to - sign * slope)} Q${round(to - sign * half)},${round(y(bow))} ${round(to)},${round(middle)}`
  const up = (rise: number) => middle - rise
  const down = (rise: number) => middle + rise
  return `M${round(left)},${round(middle)} ${points(up, left, right, 1)} ${points(down, right, left, -1)}Z`
}
