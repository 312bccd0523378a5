// Where this screen stands, kept on the device: it decides whether the screen may sound. Nobody has said
// it yet on a new device, and then it stands among the birds, where nothing sounds.

export const places = ['nursery', 'corridor', 'lead'] as const
export type Place = (typeof places)[number]

/** As a browser's localStorage, which may be switched off and then throws at every touch. */
export type PlaceStore = Pick<Storage, 'getItem' | 'setItem'>

const name = 'broodboard place'

const isPlace = (text: string | null): text is Place => places.some((place) => place === text)

export function readPlace(store: PlaceStore): Place {
  try {
    const kept = store.getItem(name)
    return isPlace(kept) ? kept : 'nursery'
  } catch {
    // Storage that is switched off: the quiet place, as on a new device.
    return 'nursery'
  }
}

/** 'notKept' where the device has no storage for it: the choice is then forgotten with the page. */
export function keepPlace(store: PlaceStore, place: Place): 'kept' | 'notKept' {
  try {
    store.setItem(name, place)
    return 'kept'
  } catch {
    return 'notKept'
  }
}
