// The parts a simulated world stands on: an order of events that never depends on the machine, chance
// that a seed repeats, a link that keeps the order of its frames.

import { describe, expect, it } from 'vitest'
import { emptyBoard } from '../../shared/board/state.ts'
import { printOf } from './boardPrint.ts'
import { Chance } from './chance.ts'
import { EventQueue } from './eventQueue.ts'
import { Pipe } from './pipe.ts'

async function ranIn(queue: EventQueue, untilMs: number): Promise<void> {
  while ((await queue.step(untilMs)) !== null);
}

describe('the queue of events', () => {
  it('runs the earliest first, and equals in the order in which they came', async () => {
    const queue = new EventQueue(0)
    const ran: string[] = []
    for (const [atMs, what] of [
      [5, 'c'],
      [1, 'a'],
      [5, 'd'],
      [3, 'b'],
    ] as const) {
      queue.after(atMs, what, () => ran.push(what))
    }
    await ranIn(queue, 10)
    expect(ran).toEqual(['a', 'b', 'c', 'd'])
    expect(queue.nowMs).toBe(10)
  })

  it('keeps its order with a thousand events and as many taken back', async () => {
    const chance = new Chance(1)
    const queue = new EventQueue(0)
    const ran: number[] = []
    for (let at = 0; at < 1_000; at += 1) {
      const atMs = chance.below(500)
      queue.after(atMs, 'kept', () => ran.push(atMs))
      queue.after(chance.below(500), 'taken back', () => ran.push(-1))()
    }
    await ranIn(queue, 500)
    expect(ran).toEqual([...ran].sort((a, b) => a - b))
    expect(ran).toHaveLength(1_000)
    expect(ran).not.toContain(-1)
  })

  it('lets every promise go on before the next event', async () => {
    const queue = new EventQueue(0)
    const ran: string[] = []
    const deep = async (left: number): Promise<void> => {
      await Promise.resolve()
      if (left > 0) await deep(left - 1)
    }
    queue.after(1, 'first', () => void deep(500).then(() => ran.push('promises')))
    queue.after(1, 'second', () => ran.push('second'))
    await ranIn(queue, 2)
    expect(ran).toEqual(['promises', 'second'])
  })
})

describe('chance', () => {
  const draws = (seed: number) => {
    const chance = new Chance(seed)
    return Array.from({ length: 50 }, () => chance.below(1_000_000))
  }

  it('repeats itself with its seed and with no other', () => {
    expect(draws(7)).toEqual(draws(7))
    expect(draws(7)).not.toEqual(draws(8))
  })

  it('draws every option about as often as any other', () => {
    const chance = new Chance(3)
    const drawn = Array.from({ length: 10_000 }, () => chance.below(5))
    for (const option of [0, 1, 2, 3, 4]) {
      const count = drawn.filter((one) => one === option).length
      expect(Math.abs(count - 2_000)).toBeLessThan(200)
    }
  })
})

describe('a pipe', () => {
  const opened = () => {
    const queue = new EventQueue(0)
    const arrived: string[] = []
    const end = { text: (text: string) => arrived.push(text), ended: () => arrived.push('end') }
    return { queue, arrived, pipe: new Pipe(queue, 'pipe', end) }
  }

  it('delivers in the order of sending, however long each would take', async () => {
    const { queue, arrived, pipe } = opened()
    pipe.send('a', 50)
    pipe.send('b', 1)
    pipe.end(1)
    await ranIn(queue, 100)
    expect(arrived).toEqual(['a', 'b', 'end'])
  })

  it('delivers nothing while it is held, and all of it afterwards', async () => {
    const { queue, arrived, pipe } = opened()
    pipe.hold()
    pipe.send('a', 1)
    pipe.send('b', 1)
    await ranIn(queue, 100)
    expect(arrived).toEqual([])
    expect(pipe.unsentCount).toBe(2)
    pipe.release()
    pipe.send('c', 1)
    await ranIn(queue, 200)
    expect(arrived).toEqual(['a', 'b', 'c'])
  })

  it('loses what is underway when it is cut', async () => {
    const { queue, arrived, pipe } = opened()
    pipe.send('a', 1)
    pipe.cut()
    pipe.send('b', 1)
    await ranIn(queue, 100)
    expect(arrived).toEqual([])
  })
})

describe('the print of a board', () => {
  it('tells two boards apart in every part they have', () => {
    const parts = Object.keys(emptyBoard) as (keyof typeof emptyBoard)[]
    const changed = parts.map((part) => printOf({ ...emptyBoard, [part]: { other: { id: 1 } } }))
    expect(new Set([printOf(emptyBoard), ...changed]).size).toBe(parts.length + 1)
  })
})
