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

export const text = (words: string): ReportBlock => ({ kind: 'text', text: words })

export const section = (heading: string, blocks: readonly ReportBlock[]): ReportSection => ({
  heading,
  blocks,
})

/** At a fixed price the hours that work took are no matter of the owner's. */
export const saysHours = ({ visit }: EstimateTelling): boolean =>
  visit.kind === 'agreed' && visit.charge.by !== 'fixed'
