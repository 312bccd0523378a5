// One command against one board: who may, then what follows. Rights are looked at here and nowhere
// else, for asks only; every case calls the page of its behaviour.

import { unreachable } from '../base/control.ts'
import type { Command } from '../board/commands.ts'
import { askMaxAgeMs } from '../board/constants.ts'
import { askRights, hasRight, isAsk } from '../board/rights.ts'
import type { Board } from '../board/state.ts'
import { decideLooked, decideSayWhatHappened } from './answeringDoubts.ts'
import { decideAdmit, decideBox, decideRelease, decideSeen } from './broods.ts'
import { decideClaim, decideGiveBack, decideMoreTime } from './claiming.ts'
import type { Context } from './context.ts'
import { decideCorrect } from './correcting.ts'
import { decideBirdFound } from './countingBack.ts'
import { type Decision, happened, refuse, setAside } from './decision.ts'
import { asideWithDoubt } from './doubts.ts'
import { decideIncubator, decidePlan } from './equipment.ts'
import { decideAnswer, decideCalledAway, decideStart } from './feeding.ts'
import { decideHoldBird, decideHoldNest, decideLiftHold } from './holds.ts'
import { decideFluids, decideRead, decideWeighed } from './measures.ts'
import { decideMentor } from './mentors.ts'
import { decideMoveBird, decideMoveNest } from './moving.ts'
import { decideAcknowledge } from './notices.ts'
import { decideDeclineOffer, decideOfferNest } from './offers.ts'
import type { Rejection } from './rejection.ts'
import {
  decideCallHelp,
  decideDeclineRequest,
  decideResolveRequest,
  decideTakeRequest,
} from './requests.ts'
import { decideAddPerson, decideRemove, decideShift, decideSignOffs } from './roster.ts'
import { decideTakeBack } from './takingBack.ts'
import { inStepWithTwice } from './twice.ts'

/**
 * The events that follow from a command, or why an ask is refused. A report is never refused: what
 * cannot be applied is set aside. Throws only when a rule of ours is broken.
 */
export function decide(board: Board, command: Command, context: Context): Decision {
  if (isAsk(command.type)) {
    const why = whyNotAsk(board, command.type, context)
    const decision = why ? refuse(why) : apply(board, command, context)
    return inStepWithTwice(board, decision, context.nowMs)
  }
  const person = board.people[context.by]
  if (person && !person.isRemoved) {
    return inStepWithTwice(board, apply(board, command, context), context.nowMs)
  }
  if (command.type === 'Withdrawn') return refuse({ code: 'Withdrawn' })
  if ('nest' in command && command.nest && command.type !== 'CallHelp')
    return happened(...asideWithDoubt(board, command, context, { why: 'personRemoved' }))
  return happened(setAside(command, context, 'personRemoved'))
}

function whyNotAsk(board: Board, type: keyof typeof askRights, context: Context): Rejection | null {
  const person = board.people[context.by]
  if (!person || person.isRemoved) return { code: 'PersonUnknown', person: context.by }
  const needs = askRights[type]
  if (!hasRight(person, needs)) {
    return needs === 'onShift' ? { code: 'NotOnShift' } : { code: 'NotAllowed', needs }
  }
  return context.agoMs > askMaxAgeMs ? { code: 'Expired' } : null
}

function apply(board: Board, command: Command, context: Context): Decision {
  switch (command.type) {
    case 'ClaimNest':
      return decideClaim(board, command, context)
    case 'GiveBack':
      return decideGiveBack(board, command, context)
    case 'MoreTime':
      return decideMoreTime(board, command, context)
    case 'BeginShift':
    case 'EndShift':
    case 'BeginBreak':
    case 'EndBreak':
      return decideShift(board, command, context)
    case 'SetHold':
      return decideHoldNest(board, command, context)
    case 'LiftHold':
      return decideLiftHold(board, command, context)
    case 'ReleaseArrival':
      return decideRelease(board, command, context)
    case 'AddPerson':
      return decideAddPerson(board, command, context)
    case 'SetSignOffs':
      return decideSignOffs(board, command, context)
    case 'RemovePerson':
      return decideRemove(board, command, context)
    case 'AddIncubator':
      return decideIncubator(board, command)
    case 'SetPlan':
      return decidePlan(board, command)
    case 'AdmitBrood':
      return decideAdmit(board, command, context)
    case 'StartFeed':
      return decideStart(board, command, context)
    case 'DeclineOffer':
      return decideDeclineOffer(board, command, context)
    case 'OfferNest':
      return decideOfferNest(board, command, context)
    case 'TakeRequest':
      return decideTakeRequest(board, command, context)
    case 'DeclineRequest':
      return decideDeclineRequest(board, command, context)
    case 'ResolveRequest':
      return decideResolveRequest(board, command, context)
    case 'Acknowledge':
      return decideAcknowledge(board, command, context)
    case 'SetMentor':
      return decideMentor(board, command, context)
    case 'SetRoom':
      return happened({ type: 'RoomSet', v: 1, usesStartTap: command.usesStartTap })
    case 'MoveNest':
      return decideMoveNest(board, command, context)
    case 'MoveBird':
      return decideMoveBird(board, command, context)
    case 'CallHelp':
      return decideCallHelp(board, command, context)
    case 'BirdFound':
      return decideBirdFound(board, command, context)
    case 'AnswerBirds':
      return decideAnswer(board, command, context)
    case 'CalledAway':
      return decideCalledAway(board, command, context)
    case 'SayWhatHappened':
      return decideSayWhatHappened(board, command, context)
    case 'Looked':
      return decideLooked(board, command, context)
    case 'TakeBackFeed':
      return decideTakeBack(board, command, context)
    case 'CorrectFeed':
      return decideCorrect(board, command, context)
    case 'HoldBird':
      return decideHoldBird(board, command, context)
    case 'BoxArrived':
      return decideBox(board, command, context)
    case 'BirdSeen':
      return decideSeen(board, command, context)
    case 'Weighed':
      return decideWeighed(board, command, context)
    case 'IncubatorRead':
      return decideRead(board, command, context)
    case 'FluidsGiven':
      return decideFluids(board, command, context)
    case 'Withdrawn':
      return refuse({ code: 'Withdrawn' })
    default:
      return unreachable(command)
  }
}
