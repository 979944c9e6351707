import type { CarState, VisitState } from '../car.ts'
import type { EstimateView } from '../views/estimate-shapes.ts'
import type { ViewContext } from '../views/view-context.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'

/** All that an estimate's letter is told from. */
export interface EstimateTelling {
  readonly car: CarState
  readonly visit: VisitState
  readonly estimate: EstimateView
  readonly context: ViewContext
}

export const section = (heading: string, blocks: readonly ReportBlock[]): ReportSection => ({
  heading,
  blocks,
})
