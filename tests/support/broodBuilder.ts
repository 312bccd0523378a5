// More of an invented room's past: broods with the bands of one's choice or none, in quarantine or not,
// and what became of single birds. Beside roomBuilder.ts, whose birds all have their own id for a band.

import type { BirdId, IncubatorId, NestId, PlanId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { clock } from './roomBuilder.ts'

type Brood = {
  readonly label: string
  readonly incubator: IncubatorId
  readonly plan: PlanId | null
  readonly isQuarantined?: boolean
  readonly birds: readonly { readonly id: BirdId; readonly band: string | null }[]
}

/** A brood of 06:00 with these bands. */
export const banded = (id: NestId, brood: Brood): RoomEvent => ({
  ...{ type: 'NestOpened', v: 1, nest: id, label: brood.label, incubator: brood.incubator },
  isQuarantined: brood.isQuarantined ?? false,
  birds: brood.birds.map((bird) => ({ ...bird, species: 'HOFI', plan: brood.plan })),
  atMs: clock('06:00'),
})
