// What simulated people do beside their rounds: they weigh, read the incubators, hold and lift, take in
// a box and release it, ask for a nest that is not theirs to have, and feed one they never claimed.

import { type BirdId, minuteMs, type PersonId } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { Bird, Board, Nest } from '../../shared/board/state.ts'
import {
  callHelp,
  claimAlone,
  findBird,
  mendNest,
  moveBird,
  moveNest,
  nameMentor,
  readNotice,
  sendSomebody,
  takeTaken,
} from './calls.ts'
import type { Chance } from './chance.ts'
import { drawAnswer } from './visit.ts'
import type { Sight, Worker } from './worker.ts'

/** One thing somebody might do now; false when there is nothing of the kind to do. */
type Job = (person: Worker, sight: Sight, chance: Chance) => boolean

/** With how much of a chance each is thought of at one look. */
const jobs: readonly (readonly [number, Job])[] = [
  [0.04, weigh],
  [0.02, readIncubator],
  [0.02, claimAnyNest],
  [0.01, feedUnclaimed],
  [0.006, holdBird],
  [0.004, holdNest],
  [0.04, lift],
  [0.3, lookAtArrival],
  [0.015, noteBird],
  [0.02, giveFluids],
  [0.03, release],
  [0.002, boxArrives],
  [0.003, changePeople],
  [0.006, callHelp],
  [0.2, findBird],
  [0.1, readNotice],
  [0.01, sendSomebody],
  [0.003, moveNest],
  [0.003, moveBird],
  [0.02, nameMentor],
  [0.006, mendNest],
  [0.05, takeTaken],
  [0.3, claimAlone],
]

/** Does at most one of them. */
export function doSideJob(person: Worker, sight: Sight): boolean {
  const { chance } = person.world
  for (const [share, job] of jobs) {
    if (chance.happens(share) && job(person, sight, chance)) return true
  }
  return false
}

const leads = ({ me }: Sight): boolean => me.role === 'lead' || me.role === 'permitHolder'
const anyBird = ({ board }: Sight, chance: Chance): Bird => chance.oneOf(Object.values(board.birds))
const anyNest = ({ board }: Sight, chance: Chance): Nest => chance.oneOf(Object.values(board.nests))
const settling = ({ board }: Sight): readonly Bird[] =>
  Object.values(board.birds).filter(({ standing }) => standing.type === 'settling')

function weigh(person: Worker, sight: Sight, chance: Chance): boolean {
  const { id: bird } = anyBird(sight, chance)
  person.report({ type: 'Weighed', v: 1, bird, massMg: chance.between(4_000, 60_000) })
  return true
}

function readIncubator(person: Worker, { board }: Sight, chance: Chance): boolean {
  const { id: incubator } = chance.oneOf(Object.values(board.incubators))
  const tempDeciC = chance.between(280, 380)
  person.report({ type: 'IncubatorRead', v: 1, incubator, tempDeciC })
  return true
}

/** Whoever does not look first: it may be taken, held, not due or in doubt. */
function claimAnyNest(person: Worker, sight: Sight, chance: Chance): boolean {
  const ask = { type: 'ClaimNest', v: 1, nest: anyNest(sight, chance).id } as const
  void person.ask(sight, chance.happens(0.3) ? { ...ask, sureEarly: true } : ask)
  return true
}

function feedUnclaimed(person: Worker, sight: Sight, chance: Chance): boolean {
  const nest = anyNest(sight, chance)
  const birds: readonly BirdId[] = birdsOf(sight.board, nest.id).map(({ id }) => id)
  if (birds.length === 0) return false
  const saidAtMs = Math.max(0, sight.nowMs - chance.between(0, 40 * minuteMs))
  person.report({
    ...({ type: 'AnswerBirds', v: 1, nest: nest.id } as const),
    answers: birds.map((bird) => drawAnswer(chance, bird)),
    ...(chance.happens(0.4) ? { saidAtMs } : {}),
  })
  return true
}

function holdBird(person: Worker, sight: Sight, chance: Chance): boolean {
  const bird = anyBird(sight, chance)
  if (bird.hold !== null) return false
  const lookAgainAtMs = sight.nowMs + chance.between(20, 120) * minuteMs
  person.report({ type: 'HoldBird', v: 1, bird: bird.id, reason: 'limping', lookAgainAtMs })
  return true
}

function holdNest(person: Worker, sight: Sight, chance: Chance): boolean {
  const nest = anyNest(sight, chance)
  if (!leads(sight) || nest.hold !== null) return false
  const lookAgainAtMs = sight.nowMs + chance.between(20, 90) * minuteMs
  const ask = { type: 'SetHold', v: 1, nest: nest.id, reason: 'vet looks', lookAgainAtMs } as const
  void person.ask(sight, ask)
  return true
}

function lift(person: Worker, sight: Sight): boolean {
  const { board } = sight
  const isMine = (by: PersonId) => by === person.id || leads(sight)
  for (const nest of Object.values(board.nests)) {
    const bird = birdsOf(board, nest.id).find(({ hold }) => hold !== null && isMine(hold.by))
    if (bird === undefined && !(nest.hold !== null && isMine(nest.hold.by))) continue
    const ask = { type: 'LiftHold', v: 1, nest: nest.id, whyLifted: 'well again' } as const
    void person.ask(sight, bird === undefined ? ask : { ...ask, bird: bird.id })
    return true
  }
  return false
}

function lookAtArrival(person: Worker, sight: Sight, chance: Chance): boolean {
  const due = settling(sight).find(
    ({ standing }) => standing.type === 'settling' && standing.lookDueAtMs <= sight.nowMs,
  )
  if (due === undefined) return false
  const droppings = chance.oneOf(['seen', 'none', 'notLooked'] as const)
  const seen = { type: 'BirdSeen', v: 1, bird: due.id, signs: [], droppings } as const
  const note = { private: { note: `looks brighter, ${sight.nowMs}` } }
  person.report(chance.happens(0.3) ? { ...seen, signs: [], ...note } : { ...seen, signs: [] })
  return true
}

function noteBird(person: Worker, sight: Sight, chance: Chance): boolean {
  const { id: bird } = anyBird(sight, chance)
  const note = `fluffed up, ${sight.nowMs}`
  const seen = { type: 'BirdSeen', v: 1, bird, signs: ['fluffed'], droppings: 'seen' } as const
  person.report({ ...seen, signs: ['fluffed'], private: { note } })
  return true
}

function giveFluids(person: Worker, sight: Sight, chance: Chance): boolean {
  const [bird] = settling(sight)
  if (bird === undefined) return false
  const given = { unit: 'uL', n: chance.between(50, 400) } as const
  const how = { fluid: 'lactated Ringer', route: 'byMouth', isWarmed: true } as const
  person.report({ type: 'FluidsGiven', v: 1, bird: bird.id, given, ...how })
  return true
}

function release(person: Worker, sight: Sight, chance: Chance): boolean {
  const { board, nowMs, me } = sight
  if (!leads(sight) && !me.signOffs.includes('fluids')) return false
  const [first] = settling(sight).filter((bird) => nowMs - bird.admittedAtMs > 60 * minuteMs)
  if (first === undefined) return false
  const birds = settling(sight)
    .filter(({ nest }) => nest === first.nest)
    .map(({ id }) => id)
  const { id: plan } = chance.oneOf(Object.values(board.plans))
  void person.ask(sight, { type: 'ReleaseArrival', v: 1, birds, plan })
  return true
}

const nestsEnough = 10

function boxArrives(person: Worker, { board, nowMs }: Sight, chance: Chance): boolean {
  const label = freeLabel(board)
  if (label === null) return false
  const { id: incubator } = chance.oneOf(Object.values(board.incubators))
  const box = { type: 'BoxArrived', v: 1, label, incubator, howMany: chance.between(1, 4) } as const
  const note = { private: { note: `found under a hedge, ${nowMs}` } }
  person.report({ ...box, size: 'small', ...(chance.happens(0.5) ? note : {}) })
  return true
}

function freeLabel(board: Board): string | null {
  const taken = Object.values(board.nests).map(({ label }) => label)
  if (taken.length >= nestsEnough) return null
  return [...'ABCDEFGHIJKLMNOP'].find((letter) => !taken.includes(letter)) ?? null
}

/** Somebody new, somebody gone, somebody signed off: only the permit holder's to do. */
function changePeople(person: Worker, sight: Sight, chance: Chance): boolean {
  if (sight.me.role !== 'permitHolder') return false
  const others = Object.values(sight.board.people).filter(
    ({ id, isRemoved }) => id !== person.id && !isRemoved,
  )
  const last = others.at(-1)
  const signOffs = ['gapeSyringe' as const]
  const name = { private: { name: `Helper ${others.length}` } }
  if (chance.happens(0.6) || last === undefined) {
    void person.ask(sight, { type: 'AddPerson', v: 1, role: 'volunteer', signOffs, ...name })
  } else if (chance.happens(0.3)) {
    // Now and then somebody who is at work, and whose device still owes what they did.
    void person.ask(sight, { type: 'RemovePerson', v: 1, person: chance.oneOf(others).id })
  } else void person.ask(sight, { type: 'SetSignOffs', v: 1, person: last.id, signOffs })
  return true
}
