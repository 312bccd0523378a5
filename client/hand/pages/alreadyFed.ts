// "I already fed it, at …": the press, to stand wherever a nest is shown or offered.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { second } from '../../ui/press.ts'
import type { Hand } from '../hand.ts'
import type { Page } from '../page.ts'
import { handWords } from '../words.ts'

/** `from` is where Back leads. */
export const alreadyFedPress = (hand: Hand, nest: NestId, from: Page): ComponentChild =>
  second({
    id: 'already-fed',
    text: handWords.alreadyFed,
    onPress: () => hand.go({ type: 'said', nest, from }),
  })
