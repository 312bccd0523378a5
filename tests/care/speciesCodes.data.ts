// Codes as the lists and the papers print them, copied by hand and not from the program's own table,
// each with where it was read.

import type { SpeciesList } from '../../shared/care/speciesCodes.ts'

export type CodeCheck = {
  readonly name: string
  readonly list: SpeciesList
  readonly code: string
  readonly source: string
}

/** Rules and their examples: Klimkiewicz & Robbins 1978, as J. W. Shipman's page on them prints it. */
export const ruleChecks = [
  ['Dunlin', 'DUNL'],
  ['Dovekie', 'DOVE'],
  ['Gadwall', 'GADW'],
  ['American Wigeon', 'AMWI'],
  ['Eastern Meadowlark', 'EAME'],
  ['Eastern Screech-Owl', 'EASO'],
  ['Western Wood-Pewee', 'WEWP'],
  ['Red-tailed Hawk', 'RTHA'],
  ['White-winged Crossbill', 'WWCR'],
  ['Whip-poor-will', 'WPWI'],
  ['Black-crowned Night-Heron', 'BCNH'],
  ['American Swallow-tailed Kite', 'ASTK'],
  ['Northern Saw-whet Owl', 'NSWO'],
] as const

const bbl = 'BBL species list, pwrc.usgs.gov/bbl/manual/speclist.cfm, in a stored copy'
const ibp = 'IBP-AOS-LIST21.csv, birdpop.org, in a stored copy'
const both = 'list comparison of IBP and BBL codes, 86 shared names that differ'

/** Names whose published code is not, or not on both lists, what the rule says. */
export const exceptionChecks: readonly CodeCheck[] = [
  { name: 'Bank Swallow', list: 'BBL', code: 'BANS', source: bbl },
  { name: 'Bank Swallow', list: 'IBP', code: 'BANS', source: ibp },
  { name: 'Barn Swallow', list: 'BBL', code: 'BARS', source: bbl },
  { name: 'Barn Swallow', list: 'IBP', code: 'BARS', source: ibp },
  { name: 'Tree Swallow', list: 'IBP', code: 'TRES', source: ibp },
  { name: 'Trumpeter Swan', list: 'IBP', code: 'TRUS', source: ibp },
  { name: 'Carolina Wren', list: 'BBL', code: 'CARW', source: bbl },
  { name: 'Carolina Wren', list: 'IBP', code: 'CARW', source: ibp },
  { name: 'Cactus Wren', list: 'BBL', code: 'CACW', source: bbl },
  { name: 'Cactus Wren', list: 'IBP', code: 'CACW', source: ibp },
  { name: 'Canyon Wren', list: 'BBL', code: 'CANW', source: bbl },
  { name: 'Canyon Wren', list: 'IBP', code: 'CANW', source: ibp },
  { name: 'Cedar Waxwing', list: 'BBL', code: 'CEDW', source: bbl },
  { name: 'Cedar Waxwing', list: 'IBP', code: 'CEDW', source: ibp },
  { name: 'Cerulean Warbler', list: 'BBL', code: 'CERW', source: bbl },
  { name: 'Cerulean Warbler', list: 'IBP', code: 'CERW', source: ibp },
  { name: 'Canada Goose', list: 'BBL', code: 'CAGO', source: bbl },
  { name: 'Canada Goose', list: 'IBP', code: 'CANG', source: ibp },
  { name: 'Cackling Goose', list: 'BBL', code: 'CACG', source: bbl },
  { name: 'Cackling Goose', list: 'IBP', code: 'CACG', source: ibp },
  { name: 'American Goldfinch', list: 'BBL', code: 'AMGO', source: bbl },
  { name: 'American Goldfinch', list: 'IBP', code: 'AGOL', source: both },
  { name: 'Eurasian Collared-Dove', list: 'BBL', code: 'ECDO', source: both },
  { name: 'Eurasian Collared-Dove', list: 'IBP', code: 'EUCD', source: ibp },
  { name: 'Northern Flicker', list: 'BBL', code: 'UNFL', source: both },
  { name: 'Northern Flicker', list: 'IBP', code: 'NOFL', source: both },
  { name: 'Rock Pigeon', list: 'BBL', code: 'ROPI', source: 'not on the BBL list: IBP, as above' },
  { name: 'Rock Pigeon', list: 'IBP', code: 'ROPI', source: ibp },
]

/** The species of species.ts that no exception touches: one code, on both lists. */
export const plainChecks: readonly CodeCheck[] = [
  { name: 'House finch', list: 'IBP', code: 'HOFI', source: ibp },
  { name: 'House sparrow', list: 'IBP', code: 'HOSP', source: ibp },
  { name: 'Song sparrow', list: 'IBP', code: 'SOSP', source: ibp },
  { name: 'Eastern bluebird', list: 'BBL', code: 'EABL', source: bbl },
  { name: 'American robin', list: 'BBL', code: 'AMRO', source: bbl },
  { name: 'Northern mockingbird', list: 'IBP', code: 'NOMO', source: ibp },
  { name: 'Northern cardinal', list: 'IBP', code: 'NOCA', source: ibp },
  { name: 'European starling', list: 'IBP', code: 'EUST', source: ibp },
  { name: 'Mourning dove', list: 'IBP', code: 'MODO', source: ibp },
  { name: 'Chimney swift', list: 'BBL', code: 'CHSW', source: bbl },
]
