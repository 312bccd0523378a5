// Which page the handheld shows. One job at a time: `home` is the claim in hand, or the next nest, or
// the name tiles, whichever is the case; every other page is a step aside and leads back to it.

import type { BirdId, NestId, PersonId } from '../../shared/base/values.ts'

export type Page =
  | { readonly type: 'home' }
  | { readonly type: 'people' }
  | { readonly type: 'pin'; readonly person: PersonId; readonly how: 'pin' | 'code' }
  | { readonly type: 'list' }
  | { readonly type: 'nest'; readonly nest: NestId }
  | { readonly type: 'bird'; readonly nest: NestId; readonly bird: BirdId; readonly draft: string }
  | { readonly type: 'count' }
  | { readonly type: 'aside' }
  | { readonly type: 'said'; readonly nest: NestId }
  | { readonly type: 'whichFed'; readonly nest: NestId; readonly no: number }
  | { readonly type: 'hold'; readonly nest: NestId; readonly what: BirdId | 'nest' | null }
  | { readonly type: 'lift'; readonly nest: NestId; readonly bird: BirdId | null }
  | { readonly type: 'release'; readonly nest: NestId }
  | { readonly type: 'extra'; readonly nest: NestId }
  | { readonly type: 'box' }
  | { readonly type: 'takeBack'; readonly nest: NestId; readonly no: number }
  | { readonly type: 'more' }
  | { readonly type: 'waiting' }

export const home: Page = { type: 'home' }
