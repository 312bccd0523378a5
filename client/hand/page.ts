// Which page the handheld shows. One job at a time: `home` is the claim in hand, or the next nest, or
// the name tiles, whichever is the case; every other page is a step aside and leads back to it.

import type { BirdId, NestId, PersonId, RequestId } from '../../shared/base/values.ts'

export type Page =
  | { readonly type: 'home' }
  | { readonly type: 'people' }
  | { readonly type: 'pin'; readonly person: PersonId; readonly how: 'pin' | 'code' }
  | { readonly type: 'list' }
  | { readonly type: 'nest'; readonly nest: NestId }
  | {
      readonly type: 'bird'
      readonly nest: NestId
      readonly bird: BirdId
      readonly draft: string
      readonly from: Page
    }
  | { readonly type: 'notAll'; readonly nest: NestId; readonly draft: string; readonly after: Page }
  | { readonly type: 'count' }
  | { readonly type: 'aside' }
  | { readonly type: 'said'; readonly nest: NestId; readonly from: Page }
  | { readonly type: 'whichFed'; readonly nest: NestId; readonly no: number }
  | { readonly type: 'hold'; readonly nest: NestId; readonly what: BirdId | 'nest' | null }
  | { readonly type: 'lift'; readonly nest: NestId; readonly bird: BirdId | null }
  | { readonly type: 'release'; readonly nest: NestId }
  | { readonly type: 'extra'; readonly nest: NestId }
  | { readonly type: 'box' }
  | { readonly type: 'mend'; readonly nest: NestId; readonly no: number }
  | { readonly type: 'otherNest'; readonly nest: NestId; readonly no: number; readonly from: Page }
  | { readonly type: 'fluids'; readonly nest: NestId; readonly bird: BirdId | null }
  | { readonly type: 'fluidsAmount'; readonly nest: NestId; readonly bird: BirdId }
  | { readonly type: 'place' }
  | { readonly type: 'more' }
  | { readonly type: 'waiting' }
  | { readonly type: 'calls' }
  | { readonly type: 'call'; readonly request: RequestId }
  | { readonly type: 'callOver'; readonly request: RequestId }
  | { readonly type: 'notices' }
  | { readonly type: 'lead'; readonly nest: NestId }
  | { readonly type: 'askPerson'; readonly nest: NestId }
  | { readonly type: 'moveNest'; readonly nest: NestId }
  | {
      readonly type: 'moveBird'
      readonly nest: NestId
      readonly bird: BirdId | null
      readonly to: NestId | null
    }
  | { readonly type: 'mentors'; readonly trainee: PersonId | null }
  | { readonly type: 'break' }
  | { readonly type: 'signOut' }

export const home: Page = { type: 'home' }
