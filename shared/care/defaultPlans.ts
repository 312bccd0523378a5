// All default care plans a new room starts from, each with its source. A room's supervisor looks
// through them, changes what its permit asks, and fills in what is blank.

import { cropFedPlans } from './cropFedPlans.ts'
import type { DefaultPlan } from './defaultPlan.ts'
import { gapeFedPlans } from './gapeFedPlans.ts'

/** In the order a desk lists them; ids are unique and never reused for another plan. */
export const defaultPlans: readonly DefaultPlan[] = [...gapeFedPlans, ...cropFedPlans]
