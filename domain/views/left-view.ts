import type { CarState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { targetKey } from '../value/target.ts'
import type { LeftView } from './shared-views.ts'
import { stampName, type ViewContext } from './view-context.ts'

/** What was last said to be still to do on a gate or task; null when nothing was. */
export function leftView(car: CarState, target: WorkTarget, { nameOf }: ViewContext): LeftView | null {
  const said = car.left.get(targetKey(target))
  return said ? { hours: said.hours, at: said.stamp.happened, by: stampName(said.stamp, nameOf) } : null
}
