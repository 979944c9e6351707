import type { CarState } from '../car.ts'
import { carLine } from './car-line.ts'
import { type RestingCar, restingLine } from './resting-car.ts'
import { createViewContext, type ViewInput } from './view-context.ts'
import type { CarLine, CarsView } from './view-shapes.ts'
import { isOver } from '../visit-over.ts'

interface CarsInput extends ViewInput {
  readonly cars: readonly CarState[]
  /** All others. */
  readonly resting: readonly RestingCar[]
}

/** Every car: those of the house first, by priority and promised date; delivered ones last, the latest first. */
export function carsView({ cars, resting, ...input }: CarsInput): CarsView {
  const context = createViewContext(input)
  const lines = [
    ...cars.map((car) => carLine(car, context)),
    ...resting.map((each) => restingLine(each, context)),
  ]
  const isGone = (line: CarLine): boolean => isOver(line)
  return {
    cars: [
      ...lines.filter((line) => !isGone(line)).toSorted(byUrgency),
      ...lines.filter(isGone).toSorted((a, b) => b.revision - a.revision),
    ],
  }
}

/** First priority first, then what is promised earliest; cars without a promise come after those with one. */
export function byUrgency(
  a: Pick<CarLine, 'priority' | 'promised' | 'shellNumber'>,
  b: Pick<CarLine, 'priority' | 'promised' | 'shellNumber'>,
): number {
  const promised = (a.promised ?? NEVER).localeCompare(b.promised ?? NEVER)
  return b.priority - a.priority || promised || a.shellNumber.localeCompare(b.shellNumber)
}

/** Sorts after every date. */
const NEVER = '9999-12-31'
