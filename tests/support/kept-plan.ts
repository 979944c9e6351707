import { visitIdSchema, type CarId } from '../../domain/ids.ts'
import type { Plan, PlannedCar } from '../../domain/plan/plan.ts'

/** A plan that says of one car when it is finished, and nothing else. */
export const simplePlan = (carId: CarId, over: Partial<PlannedCar> = {}): Plan => ({
  madeAt: Date.parse('2026-11-23T08:00:00+01:00'),
  work: [],
  stays: [],
  moves: [],
  cars: [
    {
      carId,
      visitId: visitIdSchema.parse('visit-s-101'),
      promised: '2027-03-31',
      priority: 1,
      finish: Date.parse('2027-03-19T16:30:00+01:00'),
      finish50: Date.parse('2027-03-22T16:30:00+01:00'),
      finish80: Date.parse('2027-03-29T16:30:00+02:00'),
      drivers: [{ name: 'Boot floor', share: 0.6 }],
      ...over,
    },
  ],
  faults: [],
  score: { latenessHours: 0, moves: 0, end: Date.parse('2027-03-19T16:30:00+01:00'), changes: 0 },
})
