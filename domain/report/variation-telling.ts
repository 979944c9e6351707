import type { CarState, Moment, VariationState } from '../car.ts'
import type { ViewContext } from '../views/view-context.ts'
import type { VariationView } from '../views/view-shapes.ts'

/** All that the sections of a letter about a variation are told from. */
export interface LetterTelling {
  readonly car: CarState
  readonly variation: VariationState
  readonly view: VariationView
  readonly context: ViewContext
  readonly dayOf: (moment: Moment) => string
}
