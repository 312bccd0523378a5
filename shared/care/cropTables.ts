// The two handbook tables for birds fed into the crop by weight: how much, and how long until the
// crop should be empty again. Data and the choice of a row; caps and prefills are in amounts.ts.
// Sources: HRB2 p. 447, table 27.2 (rock pigeon); HRB2 p. 446, table 27.1 (mourning dove).

import type { Sourced } from './sourced.ts'

/** Hours from one feed to the next as printed, or a number of feeds a day where it says that. */
export type Spacing =
  | { readonly type: 'hours'; readonly loH: number; readonly hiH: number }
  | { readonly type: 'timesADay'; readonly times: number }

/** What a bird of `massG` is given a feed, in whole microlitres. */
export type CropRow = {
  readonly massG: number
  readonly loUl: number
  readonly hiUl: number
  readonly spacing: Spacing
}

/** Rows from the lightest bird to the heaviest; neither amount ever falls on the way. */
export type CropTable = Sourced & { readonly rows: readonly CropRow[] }

const hours = (loH: number, hiH = loH): Spacing => ({ type: 'hours', loH, hiH })

/** The row at 250 g is printed for 250 to 400 g; above 250 g a pigeon is rarely fed by tube. */
export const rockPigeonTable: CropTable = {
  source: 'HRB2 p. 447, table 27.2',
  trust: 'read',
  rows: [
    { massG: 20, loUl: 1_000, hiUl: 2_000, spacing: hours(1) },
    { massG: 30, loUl: 2_500, hiUl: 3_500, spacing: hours(1, 2) },
    { massG: 40, loUl: 3_000, hiUl: 5_000, spacing: hours(2) },
    { massG: 50, loUl: 4_000, hiUl: 6_000, spacing: hours(2) },
    { massG: 75, loUl: 5_000, hiUl: 8_000, spacing: hours(2) },
    { massG: 100, loUl: 8_000, hiUl: 10_000, spacing: hours(2) },
    { massG: 125, loUl: 11_000, hiUl: 13_000, spacing: hours(2) },
    { massG: 150, loUl: 14_000, hiUl: 16_000, spacing: hours(2) },
    { massG: 175, loUl: 17_000, hiUl: 18_000, spacing: hours(3) },
    { massG: 200, loUl: 18_000, hiUl: 20_000, spacing: hours(3) },
    { massG: 225, loUl: 18_000, hiUl: 20_000, spacing: hours(3) },
    { massG: 250, loUl: 18_000, hiUl: 20_000, spacing: hours(4) },
  ],
}

/** The second edition's table; the one printed in 2007 differs. */
export const mourningDoveTable: CropTable = {
  source: 'HRB2 p. 446, table 27.1',
  trust: 'read',
  rows: [
    { massG: 10, loUl: 1_000, hiUl: 1_000, spacing: hours(0.5, 1) },
    { massG: 15, loUl: 1_500, hiUl: 2_000, spacing: hours(1, 1.5) },
    { massG: 20, loUl: 1_500, hiUl: 2_500, spacing: hours(2) },
    { massG: 25, loUl: 2_000, hiUl: 3_000, spacing: hours(2) },
    { massG: 30, loUl: 2_500, hiUl: 3_500, spacing: hours(2) },
    { massG: 35, loUl: 4_000, hiUl: 4_000, spacing: hours(2) },
    { massG: 40, loUl: 5_000, hiUl: 5_000, spacing: hours(3) },
    { massG: 45, loUl: 5_000, hiUl: 5_000, spacing: hours(3) },
    { massG: 50, loUl: 6_000, hiUl: 6_000, spacing: hours(3) },
    { massG: 60, loUl: 6_000, hiUl: 7_000, spacing: hours(3) },
    { massG: 65, loUl: 6_000, hiUl: 7_000, spacing: hours(3.5) },
    { massG: 70, loUl: 8_000, hiUl: 8_000, spacing: hours(4) },
    { massG: 80, loUl: 8_000, hiUl: 8_000, spacing: hours(4) },
    { massG: 90, loUl: 9_000, hiUl: 9_000, spacing: { type: 'timesADay', times: 3 } },
  ],
}

/**
 * The row that holds at `massMg`: the lower one between two rows, because too much in a crop
 * harms and too little is mended at the next feed. Beyond the last row the last one goes on;
 * below the first there is no figure, and nobody may guess one: undefined.
 */
export const rowAt = (table: CropTable, massMg: number): CropRow | undefined =>
  table.rows.findLast((row) => row.massG * 1_000 <= massMg)
