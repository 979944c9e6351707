import type { CarState, RepairState } from '../car.ts'
import type { RepairId } from '../ids.ts'
import { isClosed, isFinished } from '../rules/standing.ts'
import { gateHoldViews, isStanding } from './hold-view.ts'
import type { CoverView, HoldView } from './shared-views.ts'
import { carFaults } from './repair-card.ts'
import type { ViewContext } from './view-context.ts'
import { inSentence } from './work-words.ts'

/** Every cover of a car, with why the upper repair may not close over the lower one yet. */
export function coverViews(car: CarState, context: ViewContext): readonly CoverView[] {
  const closing = new Map<RepairId, readonly HoldView[]>()
  const closingHoldsOf = (over: RepairState): readonly HoldView[] => {
    const known = closing.get(over.id)
    if (known !== undefined) return known
    const holds = isClosed(over) ? [] : gateHoldViews(car, over, 'welded', context).filter(isStanding)
    closing.set(over.id, holds)
    return holds
  }
  return car.covers.flatMap(({ over, under }) => {
    const above = car.repairs.get(over)
    const below = car.repairs.get(under)
    if (above === undefined || below === undefined) return []
    const bar = closingBar(car, above, below, closingHoldsOf(above))
    const words = bar ?? `nothing of ${inSentence(below.plan.name)} holds ${inSentence(above.plan.name)} open`
    return [{ over, under, barred: bar !== null, words }]
  })
}

/** What bars the closing panel on this very line; null when nothing does. */
function closingBar(
  car: CarState,
  above: RepairState,
  below: RepairState,
  holds: readonly HoldView[],
): string | null {
  const fault = carFaults(car).find((each) => each.repairId === above.id && each.otherId === below.id)
  if (fault !== undefined && !isFinished(below)) return fault.words
  const hold = holds.find(
    ({ code, otherRepair, subject }) =>
      (code === 'closed in order' && otherRepair === below.id) ||
      (code === 'curing' && subject.startsWith(`${below.id.slice(0, 40)}/`)),
  )
  return hold === undefined ? null : `${above.plan.name} may not be welded yet: ${inSentence(hold.words)}`
}
