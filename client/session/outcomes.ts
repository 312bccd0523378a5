// What can become of an ask, a report and a request such as a sign-in, as the one who made it is told.

import type { PersonId } from '../../shared/base/values.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import type { CodeFrame, FaultCode, RecordFrame } from '../../shared/wire/frames.ts'
import type { StuckWhy } from './ports.ts'

type Applied = {
  readonly status: 'applied'
  readonly version: number
  /** Kept whole for review, because it could not be applied to the board. */
  readonly isSetAside?: true
}

/**
 * `notLive`: nothing was sent. `expired`: no answer within 15 s; the ask is withdrawn, and should it
 * have got through all the same, that comes as a late answer in the snapshot. `full`: the device owes
 * too much. `notKept`: the device's own store failed, and nothing was sent. `stopped`: this page ended.
 */
export type AskOutcome =
  | Applied
  | { readonly status: 'rejected'; readonly why: Rejection }
  | { readonly status: 'fault'; readonly code: FaultCode }
  | { readonly status: 'notLive' | 'expired' | 'full' | 'notKept' | 'stopped' }

/**
 * `kept`: it is on this device's medium and will reach the room; `answered` tells when it has.
 * Anything else: it is not noted, and the person who noted it must be told so.
 */
export type ReportOutcome =
  | { readonly status: 'kept'; readonly n: number; readonly answered: Promise<ReportAnswer> }
  | { readonly status: 'full' | 'notKept' }

/** Never rejects. `stuck`: the server would not take it; it stands among the stuck ones. */
export type ReportAnswer =
  | Applied
  | { readonly status: 'stuck'; readonly why: StuckWhy }
  | { readonly status: 'stopped' }

/** `numberOwed`: its old number is not yet withdrawn, so it may still turn out to have arrived. */
export type RetryOutcome = ReportOutcome | { readonly status: 'unknown' | 'numberOwed' }

/** `busy`: another request of this page is still open. `noAnswer`: given up after 15 s. */
export type NotDone =
  | { readonly status: 'fault'; readonly code: FaultCode; readonly waitMs?: number }
  | { readonly status: 'notLive' | 'busy' | 'noAnswer' | 'stopped' }

export type SignInOutcome =
  | { readonly status: 'done'; readonly signedIn: readonly PersonId[] }
  | NotDone
/** The digits are told this once; whoever asked shows them and forgets them. */
export type CodeOutcome =
  | ({ readonly status: 'done' } & Pick<CodeFrame, 'code' | 'lifeMs'>)
  | NotDone
/** Earliest first. */
export type RecordsOutcome =
  | { readonly status: 'done'; readonly records: readonly RecordFrame[] }
  | NotDone
