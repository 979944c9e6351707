import { bayIdSchema, carIdSchema, personIdSchema, repairIdSchema, visitIdSchema } from '../../domain/ids.ts'
import type { Plan, PlannedMove, PlannedWork } from '../../domain/plan/plan.ts'
import type { PlanTelling } from '../../domain/plan/plan-words.ts'
import { localToInstant } from '../../domain/time/zone.ts'

export const planZone = 'Europe/London'
export const planAt = (date: string, time: string): number => localToInstant(date, time, planZone)

export const dunmere = carIdSchema.parse('car-dunmere')
export const wren = personIdSchema.parse('person-wren')
export const joss = personIdSchema.parse('person-joss')
export const bay1 = bayIdSchema.parse('bay-number-1')
export const bay3 = bayIdSchema.parse('bay-number-3')

export const sillGate = (gate: 'sealed' | 'welded'): PlannedWork['target'] => ({
  kind: 'gate',
  repairId: repairIdSchema.parse('repair-sill'),
  gate,
})

/** Wren welds the sill of the Dunmere in bay 3 on Thu 26 Nov, 08:00 to 14:30. */
export const plannedWork = (more: Partial<PlannedWork> = {}): PlannedWork => ({
  carId: dunmere,
  visitId: visitIdSchema.parse('visit-dunmere'),
  target: sillGate('welded'),
  start: planAt('2026-11-26', '08:00'),
  finish: planAt('2026-11-26', '14:30'),
  people: [wren],
  bayId: bay3,
  hours: 6,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'curing', words: 'waits for the sealer until Thu 26 Nov, 08:00' },
  ...more,
})

/** Wren and Joss move the Dunmere from bay 1 to bay 3 before that. */
export const plannedMove = (more: Partial<PlannedMove> = {}): PlannedMove => ({
  carId: dunmere,
  from: bay1,
  to: bay3,
  start: planAt('2026-11-26', '07:30'),
  finish: planAt('2026-11-26', '08:00'),
  people: [wren, joss],
  ...more,
})

/** Made on Wed 25 Nov, 10:40. */
export const planOf = (more: Partial<Plan>): Plan => ({
  madeAt: planAt('2026-11-25', '10:40'),
  work: [],
  stays: [],
  moves: [],
  cars: [],
  faults: [],
  score: { latenessHours: 0, moves: 0, end: 0, changes: 0 },
  ...more,
})

/** Nobody works at weekends, and Joss not on Mondays. */
export const planTelling = (carName = 'Dunmere Saloon', bayName = 'Bay 3'): PlanTelling => ({
  zone: planZone,
  names: {
    car: () => carName,
    bay: (id) => (id === bay1 ? 'Bay 1' : bayName),
    person: (id) => (id === wren ? 'Wren' : 'Joss'),
    work: ({ target }) => (target.kind === 'gate' ? `Sill, left: ${target.gate}` : 'strip'),
  },
  worksOn: (person, date) => {
    const weekday = new Date(date).getUTCDay()
    return weekday !== 0 && weekday !== 6 && !(person === joss && weekday === 1)
  },
})
