// An hour of a room, told in order by a clock turned by hand: one wall, three handhelds, a tablet that
// three people share, and a desk, through everything that can happen in a round. Each part goes on where
// the one before it left the room, so of several that fail the first is the one to look at.

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { aBoxArrives, oneShort, refusesTwice, takenByOne } from './hourCalls.ts'
import { answeredNone, answeredSome, lookedByTheNext, threeGoSilent } from './hourDoubts.ts'
import {
  endOfAShift,
  lookedAgainAndLifted,
  saidAfterwards,
  struckInMidFeed,
  thatWasB,
} from './hourEnd.ts'
import {
  arrivalReleased,
  askedByTheLead,
  askedInTurn,
  mentorOnABreak,
  movedAndHeld,
} from './hourLead.ts'
import {
  calledAway,
  fedByTwo,
  helpInOneTap,
  oneOfFiveRefused,
  threeOnOneTablet,
  threeTaps,
  twoOnOneNest,
} from './hourRound.ts'
import { type Hour, openHour } from './hourScreens.ts'

let browser: Browser
let hour: Hour

beforeAll(async () => {
  browser = await launchBrowser()
  hour = await openHour(browser)
})
afterAll(async () => {
  await browser.close()
  await hour?.house.close()
})

describe('the round', () => {
  it('is served to three people on one tablet, a tap apart', () => threeOnOneTablet(hour))
  it('gives a nest that two reach for to one, and tells the other who', () => twoOnOneNest(hour))
  it('takes three taps a nest, and the next one with the third', () => threeTaps(hour))
  it('warns of a nest two people recorded, one of them from out of reach', () => fedByTwo(hour))
  it('brings help in one tap, and takes nobody’s page who has a nest in hand', () =>
    helpInOneTap(hour))
  it('leaves only the unfed due where somebody is called away', () => calledAway(hour))
  it('knows that one of five refused, and not which', () => oneOfFiveRefused(hour))
})

describe('somebody is needed', () => {
  it('calls the trained, and nobody else, fifteen seconds after a second refusal', () =>
    refusesTwice(hour))
  it('lets one of them come, and the others know who', () => takenByOne(hour))
  it('sets everybody to watch the doors until a missing bird is found', () => oneShort(hour))
  it('puts a box at the door on the board', () => aBoxArrives(hour))
})

describe('visits nobody recorded', () => {
  it('leave a bird that went hungry to be looked for, and two records to be looked into', () =>
    threeGoSilent(hour))
  it('ask their owner for a minute, then warn the next, who looks', () => lookedByTheNext(hour))
  it('are told afterwards: one of two was fed, and the other still waits', () => answeredSome(hour))
  it('are told on a shared tablet by their owner alone: none was fed', () => answeredNone(hour))
})

describe('the lead’s round', () => {
  it('knows a trainee who waits while the mentor is on a break', () => mentorOnABreak(hour))
  it('makes an arrival due by a word of the lead’s, and not before', () => arrivalReleased(hour))
  it('moves a brood and a bird, and holds a nest until a look', () => movedAndHeld(hour))
  it('has a late nest put to one after the other, not to who is gone, then to the lead', () =>
    askedInTurn(hour))
  it('has the lead ask one person by name', () => askedByTheLead(hour))
})

describe('the end of the hour', () => {
  it('comes through a struck server with nothing lost', () => struckInMidFeed(hour))
  it('takes a feed said afterwards at the time it was', () => saidAfterwards(hour))
  it('puts a record onto the nest that was fed', () => thatWasB(hour))
  it('asks for the look a hold promised, and lifts it', () => lookedAgainAndLifted(hour))
  it('ends a shift with what was done in it', () => endOfAShift(hour))
})
