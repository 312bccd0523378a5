// How the invented people of the demo differ: who forgets to record, who taps twice, who walks out, who
// stands where no signal reaches. One of each in a room; the others simply work.

export type Habit = 'steady' | 'forgets' | 'tapsTwice' | 'walksOut' | 'losesLink'

const odd: readonly Habit[] = ['forgets', 'tapsTwice', 'walksOut', 'losesLink']

/** The habit of the person at this place among those who feed. */
export const habitOf = (at: number): Habit => odd[at] ?? 'steady'

/** One visit in so many goes the way of the habit. */
export const habitOneIn = 5
