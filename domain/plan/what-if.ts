import type { Result } from '../refusal.ts'
import type { PlanInput } from './plan-input.ts'
import type { WhatIf } from './plan.ts'
import { bookedElsewhere, partLate, pinned } from './what-if/car-what-ifs.ts'
import { newCar } from './what-if/new-car.ts'
import { oneMoreBay, overtime, personOff } from './what-if/workshop-what-ifs.ts'

/**
 * The same workshop and cars as if it were so; what was given stays as it is. Refused, with what to do next: people, cars,
 * parts and bookings that are not known, dates in the past or in the wrong order, and a bay that is booked already.
 */
export function applyWhatIf(input: PlanInput, whatIf: WhatIf): Result<PlanInput> {
  switch (whatIf.kind) {
    case 'person off':
      return personOff(input, whatIf)
    case 'part late':
      return partLate(input, whatIf)
    case 'new car':
      return newCar(input, whatIf)
    case 'overtime':
      return overtime(input, whatIf)
    case 'one more bay':
      return oneMoreBay(input, whatIf)
    case 'booking':
      return bookedElsewhere(input, whatIf)
    case 'pin':
      return pinned(input, whatIf)
  }
}
