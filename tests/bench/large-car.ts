import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import {
  PLACES,
  REWORK_CAUSES,
  type EstimateLine,
  type RepairPlan,
  type WorkTarget,
} from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import {
  carIdSchema,
  entryIdSchema,
  lineIdSchema,
  repairIdSchema,
  typeIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
  type PersonId,
  type RepairId,
  type VisitId,
} from '../../domain/ids.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { addDays, weekdayNumber } from '../../domain/time/local-date.ts'
import { localToInstant, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { repairPlan } from '../support/plans.ts'
import type { Random } from '../support/random.ts'
import { owner, zone } from '../support/workshop.ts'

export interface LargeCar {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly repairs: readonly RepairId[]
}

/** Who works, and the chance that decides what they do. */
export interface Team {
  readonly people: readonly PersonId[]
  readonly random: Random
}

/** Working days from a car's coming in to its delivery as planned. */
export const WORKING_DAYS = 60
export const TYPES = 12

export function largeCar(index: number, repairsPerCar: number): LargeCar {
  return {
    carId: carIdSchema.parse(`car-number-${index}`),
    visitId: visitIdSchema.parse(`visit-of-${index}`),
    repairs: Array.from({ length: repairsPerCar }, (_, repair) =>
      repairIdSchema.parse(`repair-${index}-${repair}`),
    ),
  }
}

export const typeOf = (index: number) => typeIdSchema.parse(`type-kind-${index % TYPES}`)

/** Gate by gate over all repairs, as they are worked on. */
export const targetsOf = ({ repairs }: LargeCar): readonly WorkTarget[] =>
  GATES.flatMap((gate) => repairs.map((repairId): WorkTarget => ({ kind: 'gate', repairId, gate })))

/** The car with its repairs and its accepted estimate. */
export function bringIn(car: LargeCar, { random }: Team): readonly NewFact[] {
  const { carId, visitId, repairs } = car
  const index = Number(carId.slice('car-number-'.length))
  const lines = targetsOf(car).map((target, line): EstimateLine => {
    const likely = 0.5 + Math.round(random.next() * 14) / 4
    const points = { shortest: likely / 2, likely, longest: likely * 2.5 }
    return {
      lineId: lineIdSchema.parse(`line-${index}-${line}`),
      target,
      hours: points,
      agreed: likely,
      payer: 'owner',
    }
  })
  const answer = { how: 'letter', note: '' } as const
  const lineIds = lines.map(({ lineId }) => lineId)
  return [
    fact('carAdded', { carId, shellNumber: `L-${index}`, name: `Car ${index}`, body: 'saloon', year: 1964 }),
    fact('visitOpened', {
      visitId,
      kind: 'agreed',
      ownerId: owner,
      insurerId: null,
      status: 'in work',
      promised: null,
      priority: 1,
      charge: { by: 'hour' },
    }),
    ...repairs.map((repairId, repair) =>
      fact('repairAdded', {
        repairId,
        type: { typeId: typeOf(repair), version: 1 },
        plan: planOf(repair),
        payer: 'owner',
      }),
    ),
    fact('estimateSet', { visitId, lines }),
    fact('estimateAccepted', { visitId, payer: 'owner', lineIds, costIds: [], ...answer }),
  ]
}

const planOf = (index: number): RepairPlan =>
  repairPlan(`Repair ${index}`, {
    zone: { side: index % 2 === 0 ? 'left' : 'right', place: PLACES[index % PLACES.length] ?? 'rear' },
  })

/** Each gate from the afternoon of one working day to the morning of the next. */
export function plannedWork({ people }: Team, car: LargeCar, monday: string): Plan['work'] {
  const targets = targetsOf(car)
  return targets.map((target, index) => {
    const date = workingDay(monday, Math.floor((index * WORKING_DAYS) / targets.length))
    return {
      carId: car.carId,
      visitId: car.visitId,
      target,
      start: momentOn(date, 13),
      finish: momentOn(workingDay(date, 1), 10),
      people: [people[index % people.length] as PersonId],
      bayId: null,
      hours: 2,
      begun: false,
      pinned: { people: false, day: false },
      why: { reason: 'order', words: '' },
    }
  })
}

export function logTime(
  { carId, repairs }: LargeCar,
  { random, people }: Team,
  target: WorkTarget,
  date: string,
  index: number,
  passed: number,
): NewFact {
  const isRework = passed > repairs.length && random.between(1, 16) === 1
  const on: WorkTarget = isRework
    ? { kind: 'gate', repairId: repairs[0] as RepairId, gate: 'opened' }
    : target
  const start = momentOn(date, 8 + random.between(0, 5))
  return fact('timeLogged', {
    entryId: entryIdSchema.parse(`entry-${carId}-${index}`),
    personId: random.pick(people),
    on: { kind: 'work', targets: [on] },
    hotWork: false,
    cause: isRework ? random.pick(REWORK_CAUSES) : null,
    time: {
      kind: 'span',
      start: new Date(start).toISOString(),
      end: new Date(start + (0.25 + random.next() * 1.5) * MS_PER_HOUR).toISOString(),
    },
    shares: null,
    note: '',
    watchMinutes: null,
  })
}

export function passGate(target: WorkTarget, { people, random }: Team): NewFact {
  if (target.kind !== 'gate') throw new Error('There are no tasks in this workshop.')
  return fact('gatePassed', {
    repairId: target.repairId,
    gate: target.gate,
    did: [random.pick(people)],
    second: null,
    asked: ASKS_NOTHING,
    evidence: { attachments: [], readings: [] },
    released: [],
    coat: target.gate === 'painted' ? 'protective' : null,
    note: '',
  })
}

export function vary({ carId, visitId }: LargeCar, target: WorkTarget): readonly NewFact[] {
  const variationId = variationIdSchema.parse(`variation-${carId}`)
  const words = { title: 'More to do', why: 'It was found.', ifNot: '' }
  const lines = [{ target, hours: 3, low: 2, high: 5 }]
  return [
    fact('variationRaised', {
      variationId,
      visitId,
      payer: 'owner',
      ...words,
      findings: [],
      attachments: [],
      lines,
      costs: [],
    }),
    fact('variationDecided', { variationId, decision: 'accepted', changed: null, how: 'call', note: '' }),
  ]
}

export function startClock(car: LargeCar, personId: PersonId, now: number): NewFact {
  const targets = targetsOf(car)
  return fact('clockStarted', {
    entryId: entryIdSchema.parse(`entry-${car.carId}-running`),
    personId,
    on: { kind: 'work', targets: [targets[targets.length / 2 + 1] as WorkTarget] },
    hotWork: false,
    cause: null,
    start: new Date(now - MS_PER_HOUR).toISOString(),
  })
}

const instants = new Map<string, number>()

/** Epoch ms of a full hour on a local date. */
export function momentOn(date: string, hour: number): number {
  const known = instants.get(date)
  if (known !== undefined) return known + hour * MS_PER_HOUR
  const midnight = localToInstant(date, '00:00', zone)
  instants.set(date, midnight)
  return midnight + hour * MS_PER_HOUR
}

/** So many working days, Monday to Friday, after a date. */
export function workingDay(from: string, days: number): string {
  let date = addDays(from, Math.floor(days / 5) * 7)
  for (let left = days % 5; left > 0; left -= 1) {
    date = addDays(date, 1)
    while (weekdayNumber(date) > 5) date = addDays(date, 1)
  }
  while (weekdayNumber(date) > 5) date = addDays(date, 1)
  return date
}
