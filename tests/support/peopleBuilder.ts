// More of an invented room's past: what may have become of its people, as the events that say so. Beside
// roomBuilder.ts, which has the people themselves and their shifts.

import type { PersonId } from '../../shared/base/values.ts'
import type { SignOff } from '../../shared/board/constants.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { type Clock, clock } from './roomBuilder.ts'

export const mentoredBy = (person: PersonId, mentor: PersonId | null): RoomEvent => ({
  type: 'MentorSet',
  v: 1,
  person,
  mentor,
})

export const onBreak = (person: PersonId, at: Clock): RoomEvent => ({
  type: 'BreakBegun',
  v: 1,
  person,
  atMs: clock(at),
})

export const unreachable = (person: PersonId, at: Clock): RoomEvent => ({
  type: 'PersonUnreachable',
  v: 1,
  person,
  atMs: clock(at),
})

export const reachable = (person: PersonId, at: Clock): RoomEvent => ({
  type: 'PersonReachable',
  v: 1,
  person,
  atMs: clock(at),
})

export const signedOffFor = (person: PersonId, ...signOffs: readonly SignOff[]): RoomEvent => ({
  type: 'SignOffsSet',
  v: 1,
  person,
  signOffs: [...signOffs],
})
