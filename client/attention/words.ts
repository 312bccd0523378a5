// The sentences of the setting "where does this screen stand"; pages draw it, place.ts keeps it.

import type { Place } from './place.ts'

export const placeTitle = 'Where is this screen?'

export const placeWords: Readonly<
  Record<Place, { readonly name: string; readonly means: string }>
> = {
  nursery: { name: 'In the nursery', means: 'it never sounds' },
  corridor: { name: 'In the corridor', means: 'it sounds for the room' },
  lead: { name: 'In the lead’s pocket', means: 'it sounds and vibrates' },
}
