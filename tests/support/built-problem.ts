import type { BuiltProblem, BuiltWork } from '../../domain/plan/build-problem.ts'
import {
  bayIdSchema,
  bookingIdSchema,
  carIdSchema,
  personIdSchema,
  taskIdSchema,
  visitIdSchema,
} from '../../domain/ids.ts'
import type { Problem } from '../../domain/plan/problem.ts'

const CARS = ['Marrick', 'Larkspur', 'Tern', 'Fulmar']
const PEOPLE = ['Joss', 'Vera', 'Ned', 'Ida']

const number = (index: number): string => String(index + 1).padStart(3, '0')

/** Names around a problem: cars Marrick, Larkspur ..., Bay 1 ..., Joss, Vera ..., Work 1 .... Tick 0 is Mon 23 Nov, 00:00. */
export function builtProblem(problem: Problem, work: readonly Partial<BuiltWork>[] = []): BuiltProblem {
  const carIds = problem.cars.map((_, car) => carIdSchema.parse(`car-number-${number(car)}`))
  return {
    problem,
    origin: Date.UTC(2026, 10, 23),
    zone: 'Europe/London',
    work: problem.activities.map((each, index) => ({
      carId: carIds[each.car ?? 0] ?? carIdSchema.parse('car-number-none'),
      visitId: visitIdSchema.parse(`visit-number-${number(each.car ?? 0)}`),
      target: { kind: 'task', taskId: taskIdSchema.parse(`task-number-${number(index)}`) },
      repairId: null,
      name: `Work ${index + 1}`,
      hours: each.work / 12,
      begun: false,
      pinned: { people: false, day: false },
      points: { shortest: 1, likely: 1, longest: 1 },
      assessed: true,
      earliest:
        each.earliest > 0 ? [{ tick: each.earliest, reason: 'parts', words: 'Outer skin: ordered.' }] : [],
      ...work[index],
    })),
    carIds,
    visitIds: problem.cars.map((_, car) => visitIdSchema.parse(`visit-number-${number(car)}`)),
    cars: problem.cars.map((_, car) => ({
      name: CARS[car] ?? `Car ${car + 1}`,
      promised: null,
      priority: 1,
      whole: true,
    })),
    bayIds: problem.bays.map((_, bay) => bayIdSchema.parse(`bay-number-${number(bay)}`)),
    bayNames: problem.bays.map((_, bay) => `Bay ${bay + 1}`),
    personIds: problem.people.map((_, person) => personIdSchema.parse(`person-number-${number(person)}`)),
    personNames: problem.people.map((_, person) => PEOPLE[person] ?? `Person ${person + 1}`),
    idle: [],
    bookingIds: problem.cars.map(({ bookings }, car) =>
      bookings.map((_, at) => bookingIdSchema.parse(`booking-${number(car)}-${number(at)}`)),
    ),
    faults: [],
  }
}
