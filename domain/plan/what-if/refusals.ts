import type { CarState } from '../../car.ts'
import type { CarId } from '../../ids.ts'
import { refuse } from '../../refusal.ts'
import { localDateOf } from '../../time/zone.ts'
import type { PlanInput } from '../plan-input.ts'
import type { WhatIf } from '../plan.ts'

export type WhatIfOf<K extends WhatIf['kind']> = Extract<WhatIf, { kind: K }>

export type Refused = ReturnType<typeof refuse>

export const findCar = ({ cars }: PlanInput, id: CarId): CarState | undefined =>
  cars.find((car) => car.id === id)

export const unknown = (what: string): Refused =>
  refuse('unknown', `This ${what} is not known.`, 'Reload the screen and choose again.')

/** Days must be in order, and not all over. */
export function daysRefusal({ workshop, now }: PlanInput, from: string, to: string): Refused | null {
  if (to < from) return refuse('bad-input', 'The last day comes before the first.', 'Correct the dates.')
  return dayRefusal({ workshop, now }, to)
}

export function dayRefusal(
  { workshop, now }: Pick<PlanInput, 'workshop' | 'now'>,
  day: string,
): Refused | null {
  return day < localDateOf(now, workshop.zone)
    ? refuse('bad-input', 'This day is in the past.', 'Choose today or a later day.')
    : null
}

export const withCar = (input: PlanInput, changed: CarState): PlanInput => ({
  ...input,
  cars: input.cars.map((car) => (car.id === changed.id ? changed : car)),
})
