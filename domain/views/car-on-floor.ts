import type { CarState } from '../car.ts'
import { carLine, carWork } from './car-line.ts'
import type { ViewContext } from './view-context.ts'
import type { CarLine } from './view-shapes.ts'
import type { WorkItem } from './work-items.ts'

/** A car of the house with its line and what may come next on it: holds are judged once for both. */
export interface CarOnFloor {
  readonly car: CarState
  readonly line: CarLine
  readonly items: readonly WorkItem[]
}

export function carOnFloor(car: CarState, context: ViewContext): CarOnFloor {
  const items = carWork(car, context)
  return { car, items, line: carLine(car, context, items) }
}
