// The journal's sentences about broods and birds beside their feeding, and about calls for somebody.

import type { EventType } from '../../shared/board/events.ts'
import { whyCalled } from '../ui/openWords.ts'
import { amountWords, birdsWords } from '../ui/words.ts'
import type { Lines } from './journalSay.ts'
import { callNames, routeWords } from './words.ts'

const droppingsWords = {
  seen: 'droppings seen',
  none: 'no droppings',
  notLooked: 'droppings not looked for',
} as const

export const broodLines = {
  NestOpened: ({ nest, birds, incubator, lookDueAtMs }, say) =>
    lookDueAtMs === undefined
      ? `Nest ${say.nest(nest)} was opened with ${birdsWords(birds.length)}, incubator ${say.incubator(incubator)}.`
      : `A box of ${birdsWords(birds.length)} became nest ${say.nest(nest)}, to be warmed; look by ${say.time(lookDueAtMs)}.`,
  ArrivalReleased: ({ birds, plan }, say) =>
    `${birds.map(say.bird).join(', ')} released to feeding, plan “${say.plan(plan)}”.`,
  NestMoved: ({ nest, incubator }, say) =>
    `Nest ${say.nest(nest)} moved to incubator ${say.incubator(incubator)}.`,
  BirdMoved: ({ bird, nest }, say) => `${say.bird(bird)} moved to nest ${say.nest(nest)}.`,
  BirdsShort: ({ nest, missing }, say) =>
    `${birdsWords(missing)} of ${say.nest(nest)} not counted back.`,
  BirdsFound: ({ nest }, say) => `The birds of ${say.nest(nest)} are all there again.`,
  RequestRaised: ({ kind, why, nest }, say) =>
    `${callNames[kind]}${nest ? ` for nest ${say.nest(nest)}` : ''}. ${whyCalled[why]}`,
  RequestTaken: ({ person }, say) => `${say.person(person)} took the call.`,
  RequestDeclined: ({ person }, say) => `${say.person(person)} cannot take the call.`,
  RequestResolved: () => 'The call was dealt with.',
  HoldSet: ({ nest, bird, hold }, say) =>
    `${bird ? say.bird(bird) : `Nest ${say.nest(nest)}`} on hold: ${hold.reason}. Look again ${say.time(hold.lookAgainAtMs)}.`,
  HoldLifted: ({ nest, bird, why }, say) =>
    `The hold on ${bird ? say.bird(bird) : `nest ${say.nest(nest)}`} was lifted: ${why}.`,
  BirdSeen: ({ bird, signs, droppings }, say) =>
    `${say.bird(bird)} was looked at${signs.length > 0 ? `: ${signs.join(', ')}` : ''}; ${droppingsWords[droppings]}.`,
  Weighed: ({ bird, massMg }, say) =>
    `${say.bird(bird)} weighed ${Math.round(massMg / 100) / 10} g.`,
  IncubatorRead: ({ incubator, tempDeciC, humidityPercent }, say) =>
    `Incubator ${say.incubator(incubator)} read ${(tempDeciC / 10).toFixed(1)} °C${humidityPercent === undefined ? '' : `, ${humidityPercent} %`}.`,
  FluidsGiven: ({ bird, fluid, route, given, isWarmed }, say) =>
    `${say.bird(bird)} was given ${amountWords(given)} of ${fluid} ${routeWords[route]}${isWarmed ? ', warmed' : ''}.`,
} satisfies Partial<Lines<EventType>>
