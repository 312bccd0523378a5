// Who may ask what: one table, read by the rules before anything else. Reports are not in it, because
// what a person did or saw is never refused; there a missing right becomes a mark on the record.

import type { AskType, CommandType } from './commands.ts'
import type { Role, SignOff } from './constants.ts'

/**
 * `present` anyone in the room, `onShift` anyone signed in to a shift, `lead` the shift lead or the
 * permit holder, `release` a lead or someone signed off for fluids, `fluids` someone on
 * shift signed off for fluids, `permitHolder` nobody else.
 */
export type Right = 'present' | 'onShift' | 'lead' | 'release' | 'fluids' | 'permitHolder'

export const askRights: Readonly<Record<AskType, Right>> = {
  ClaimNest: 'onShift',
  GiveBack: 'onShift',
  MoreTime: 'onShift',
  DeclineOffer: 'onShift',
  OfferNest: 'lead',
  // The rule itself adds: signed off for fluids, where fluids are asked for.
  TakeRequest: 'onShift',
  DeclineRequest: 'onShift',
  // The rule itself adds: who took it, who called for help, or the lead.
  ResolveRequest: 'onShift',
  Acknowledge: 'lead',
  BeginShift: 'present',
  EndShift: 'onShift',
  BeginBreak: 'onShift',
  EndBreak: 'onShift',
  SetHold: 'lead',
  // The rule itself adds: who set the hold, or somebody above them.
  LiftHold: 'present',
  ReleaseArrival: 'release',
  AddIncubator: 'lead',
  AdmitBrood: 'lead',
  MoveNest: 'lead',
  MoveBird: 'lead',
  SetMentor: 'lead',
  SetRoom: 'permitHolder',
  AddPerson: 'permitHolder',
  SetSignOffs: 'permitHolder',
  RemovePerson: 'permitHolder',
  SetPlan: 'permitHolder',
}

export const isAsk = (type: CommandType): type is AskType => type in askRights

export type Actor = {
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  readonly shift: 'off' | 'on' | 'break'
  readonly isRemoved: boolean
}

const leads = (actor: Actor): boolean => actor.role === 'lead' || actor.role === 'permitHolder'

/** Whether this person may ask this now; `onShift` covers a break too, so that it can be ended. */
export function hasRight(actor: Actor, right: Right): boolean {
  if (actor.isRemoved) return false
  if (right === 'present') return true
  if (right === 'onShift') return actor.shift !== 'off'
  if (right === 'release') return leads(actor) || actor.signOffs.includes('fluids')
  if (right === 'fluids') return actor.shift === 'on' && actor.signOffs.includes('fluids')
  if (right === 'permitHolder') return actor.role === 'permitHolder'
  return leads(actor)
}
