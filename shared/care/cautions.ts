// What the program says wherever a feed is shown or recorded: the usual cautions, and who decides
// when they and the room disagree. Sentences for people, each with its source; no rule reads them.

import { commonPractice, type Sourced } from './sourced.ts'

export type Caution = Sourced & { readonly text: string }

/** Shown wherever a figure of care is shown. */
export const whoDecides: Caution = {
  ...commonPractice,
  text:
    'The figures here are starting points, not medical advice. ' +
    'Local law, your permit, your supervisor and your vet decide.',
}

/** Shown on every screen where a feed is recorded. */
export const feedingTechnique: Caution = {
  ...commonPractice,
  text:
    'Come from the side, behind the opening of the windpipe: ' +
    'a tiny amount, swallowed, then the next. A clean face afterwards.',
}

export const formulaTemperature: Caution = {
  source: 'HRB2; two veterinary articles',
  trust: 'read',
  text:
    'Formula is fed at 38–40.5 °C (100–105 °F). Over 41 °C it waits. ' +
    'Never straight from a microwave: hot formula burns the crop.',
}

/** Shown for groups with a crop that can be seen. */
export const fullCrop: Caution = {
  source: 'HRB2 p. 445, 449, 750',
  trust: 'read',
  text:
    'A crop that has not emptied is not filled again, however much the bird begs. ' +
    'If it stays slow, fetch help.',
}

/** Shown wherever fluids can be asked for or recorded. */
export const fluids: Caution = {
  ...commonPractice,
  text:
    'Fluids are given only by people signed off for them, ' +
    'under a protocol the supervisor has written and dated.',
}

/** All of them, in the order a screen shows them. */
export const cautions: readonly Caution[] = [
  feedingTechnique,
  formulaTemperature,
  fullCrop,
  fluids,
  whoDecides,
]
