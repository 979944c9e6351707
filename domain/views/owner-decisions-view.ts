import type { CarState } from '../car.ts'
import { PAYERS } from '../facts/shapes.ts'
import { visitFigures } from '../value/hours.ts'
import { isElsewhere } from '../value/own-visits.ts'
import { targetKey } from '../value/target.ts'
import { currentVisit } from './car-header.ts'
import { variationView } from './variation-view.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { OwnerDecisionsView, VariationView } from './view-shapes.ts'
import { isOver } from '../visit-over.ts'

/** What waits for an owner or another payer, what was declined and waits for the manager, and the latest answers. */
export function ownerDecisionsView({
  cars,
  ...input
}: ViewInput & { readonly cars: readonly CarState[] }): OwnerDecisionsView {
  const context = createViewContext(input)
  const variations = cars.flatMap((car) =>
    [...car.variations.values()]
      .filter(({ visitId }) => !isElsewhere(car, visitId))
      .map((variation) => ({ car, variation })),
  )
  const views = variations.map(({ car, variation }) => variationView(car, variation, context))
  return {
    open: views.filter(isOpen).toSorted((a, b) => a.raised - b.raised),
    declined: views.filter(isUnsettled).toSorted(byAnswer),
    answered: views
      .filter((view) => !isOpen(view) && !isUnsettled(view))
      .toSorted(byAnswer)
      .slice(0, MOST_ANSWERED),
    unaccepted: cars.flatMap((car) => unacceptedOf(car, context)),
  }
}

/** Older answers stand on their car's own page. */
export const MOST_ANSWERED = 24

const isOpen = ({ status }: VariationView): boolean => status === 'raised'

/** Declined or stopped, and neither settled otherwise nor closed as found. */
const isUnsettled = ({ status, closedAsFound }: VariationView): boolean =>
  (status === 'declined' || status === 'stopped') && !closedAsFound

const byAnswer = (a: VariationView, b: VariationView): number => (b.decided ?? 0) - (a.decided ?? 0)

/** Estimate lines of the current visit, by payer, that are not accepted on gates and tasks still to be done. */
function unacceptedOf(car: CarState, context: ViewContext): OwnerDecisionsView['unaccepted'] {
  const visit = currentVisit(car)
  if (visit === null || isOver(visit)) return []
  const figures = visitFigures(car, visit.id, context)
  const waiting = [...visit.lines.values()].filter(
    ({ accepted, target }) => accepted === null && figures.get(targetKey(target))?.standing === 'open',
  )
  return PAYERS.flatMap((payer) => {
    const lines = waiting.filter((line) => line.payer === payer)
    if (lines.length === 0) return []
    const hours = lines.reduce((sum, { agreed, moved }) => sum + agreed + moved, 0)
    const { id: carId, name: carName } = car
    const owner = context.nameOf(visit.ownerId)
    return [{ carId, carName, owner, payer, hours, lines: lines.length, visitId: visit.id }]
  })
}
