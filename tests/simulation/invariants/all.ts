// All of them, new for every world, in the order of their numbers.

import type { Invariant } from '../scene.ts'
import {
  AllScreensAgree,
  NeverOlderThanTold,
  OneBoardEverywhere,
  OutboxesAreEmpty,
  TailsAreWhole,
  TheHashTellsBoardsApart,
  VersionsOnlyGrow,
} from './boards.ts'
import { OneTakesACall, RefusalsFetch, ShortCountsAreSaid, TwiceIsSaid } from './calls.ts'
import {
  ClaimsEndInTime,
  LateRoundsStrike,
  NoClaimMovesSilently,
  OneClaimANest,
  StartedVisitsEnd,
} from './claims.ts'
import {
  LateStartsStayInBounds,
  LeasesRunByTheRoomsClock,
  TheRoomsClockGoesOn,
  WallJumpsChangeHoursOnly,
} from './clocks.ts'
import {
  AnswersFollowTime,
  CorrectionsDeleteNothing,
  LanesAreContiguous,
  NothingNotedIsLost,
  NumbersMeanOneThing,
  OneEffectACommand,
  ReceivedIsAccountedFor,
  RepeatsGetTheirFirstAnswer,
  ReportsAreNeverRejected,
  WhatWaitsIsSeen,
} from './commands.ts'
import {
  AnswersNameTheirRecord,
  DamageIsNamed,
  NamesAreKept,
  OpenedAsItWas,
  ThePastSurvives,
  ToldIsDurable,
} from './durability.ts'
import { LeadsAreToldOnce, OffersEnd, OffersFit, TraineesHaveTheirMentor } from './offers.ts'
import { FailuresAreSaid, HeartbeatsKeepTime, ReadingGoesOn, SilenceIsSaid } from './silence.ts'
import { HoldsAreLookedAtAgain, NoClaimIsStuck, TimeLeavesNothing } from './time.ts'

export const allInvariants = (): readonly Invariant[] => [
  new OneClaimANest(),
  new NoClaimMovesSilently(),
  new ToldIsDurable(),
  new AnswersNameTheirRecord(),
  new ThePastSurvives(),
  new NamesAreKept(),
  new OneEffectACommand(),
  new RepeatsGetTheirFirstAnswer(),
  new LanesAreContiguous(),
  new NumbersMeanOneThing(),
  new NothingNotedIsLost(),
  new WhatWaitsIsSeen(),
  new OneBoardEverywhere(),
  new OpenedAsItWas(),
  new TheHashTellsBoardsApart(),
  new VersionsOnlyGrow(),
  new TailsAreWhole(),
  new ClaimsEndInTime(),
  new LeasesRunByTheRoomsClock(),
  new LateStartsStayInBounds(),
  new TheRoomsClockGoesOn(),
  new WallJumpsChangeHoursOnly(),
  new AnswersFollowTime(),
  new NeverOlderThanTold(),
  new SilenceIsSaid(),
  new HeartbeatsKeepTime(),
  new FailuresAreSaid(),
  new ReadingGoesOn(),
  new DamageIsNamed(),
  new ReceivedIsAccountedFor(),
  new CorrectionsDeleteNothing(),
  new AllScreensAgree(),
  new OutboxesAreEmpty(),
  new NoClaimIsStuck(),
  new LateRoundsStrike(),
  new StartedVisitsEnd(),
  new ReportsAreNeverRejected(),
  new TimeLeavesNothing(),
  new HoldsAreLookedAtAgain(),
  new OffersFit(),
  new OffersEnd(),
  new LeadsAreToldOnce(),
  new TraineesHaveTheirMentor(),
  new OneTakesACall(),
  new RefusalsFetch(),
  new ShortCountsAreSaid(),
  new TwiceIsSaid(),
]
