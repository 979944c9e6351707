import { digestOf, ownerOf, type TenYearsCar, typeOf } from './ten-years-car.ts'
import { LAST_MORNING, type Filled } from './ten-years.ts'
import type { Database } from '../../db/database.ts'
import { BANDS_WHEN } from '../../domain/facts/agreement-facts.ts'
import { GATES } from '../../domain/gates.ts'
import { dateToIsoWeek, formatIsoWeek } from '../../domain/time/iso-week.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { everyInput, queriesOfRouter, type Inputs, type QueryName } from '../support/every-view.ts'

/** Queries whose answers differ much with what is asked for; of the others the first of all questions is asked. */
type Asked = {
  readonly [Q in QueryName]?: (filled: Filled, round: number) => Inputs[Q]
}

const noWatch = '00000000-0000-4000-8000-000000000000'

/** Every second one of the cars in work, the others from all the years. */
function carOf({ cars, inWork }: Filled, round: number): TenYearsCar {
  const from = round % 2 === 0 ? inWork : cars
  return from[(round * 37) % from.length] as TenYearsCar
}

const ofCar = (filled: Filled, round: number) => ({ carId: carOf(filled, round).carId })
const ofRepair = (filled: Filled, round: number) => {
  const { carId, repairs } = carOf(filled, round)
  return { carId, repairId: repairs[(round * 7) % repairs.length] as (typeof repairs)[number] }
}
const ofVisit = (filled: Filled, round: number) => {
  const { carId, visitId } = carOf(filled, round)
  return { carId, visitId }
}
const ofType = (_: Filled, round: number) => ({ typeId: typeOf(round) })
const ofGate = (_: Filled, round: number) => ({
  grouping: 'gate' as const,
  key: GATES[round % GATES.length] as string,
})

/** A car, an owner, what every note of all years begins with, and what is in nearly everything. */
const textsLookedFor = (car: number) => [`car l-${car}`, `owner ${car}`, 'what was said', 'ca']

/** What is asked of a query in a round: other cars, people, weeks and figures from round to round. */
const askedInRound: Asked = {
  typeUse: ofType,
  car: ofCar,
  repair: ofRepair,
  daySheet: ({ people }, round) => ({ personId: people[round % people.length] as (typeof people)[number] }),
  record: ofCar,
  find: (filled, round) => ({ text: textsLookedFor(carOf(filled, round).index)[round % 4] as string }),
  ownerReports: (_, round) => ({
    week: formatIsoWeek(dateToIsoWeek(addDays(LAST_MORNING, -7 * (round % 50)))),
  }),
  planHistory: ofCar,
  beyondAgreed: ofCar,
  variationDraft: ofRepair,
  estimate: ofCar,
  hoursSheet: ofCar,
  cardPhotoKnown: (filled, round) => ({ sha256: digestOf(carOf(filled, round).index, round) }),
  copiesIn: () => ({ folder: '/nowhere' }),
  carFileProgress: () => ({ watch: noWatch }),
  bringInProgress: () => ({ fileId: noWatch }),
  carMoney: ofCar,
  erasing: (filled, round) => ({ id: ownerOf(carOf(filled, round).index) }),
  varianceDrill: ofGate,
  varianceWork: (filled, round) => ({ ...ofGate(filled, round), ...ofVisit(filled, round) }),
  varianceEntries: (filled, round) => ({ ...ofGate(filled, round), ...ofCar(filled, round) }),
  varianceCurves: ofVisit,
  hoursProposal: ofType,
  wereWeRight: (_, round) => ({
    when: BANDS_WHEN[round % BANDS_WHEN.length] as (typeof BANDS_WHEN)[number],
    last: [null, 5, 100][round % 3] as number | null,
  }),
}

/** A question that is timed: a query, or what of it costs otherwise than the rest. */
export interface Question {
  readonly name: string
  readonly query: QueryName
  readonly input: (filled: Filled, round: number) => unknown
}

export const questions: readonly Question[] = [
  ...queriesOfRouter().map((query) => ({
    name: query,
    query: query as QueryName,
    input: (askedInRound as Partial<Record<string, Question['input']>>)[query] ?? firstOf(query as QueryName),
  })),
  { name: 'record of the workshop', query: 'record', input: () => ({ carId: null }) },
]

function firstOf(query: QueryName): Question['input'] {
  return () => everyInput[query](WITHOUT_DATABASE)[0]
}

/** What is not asked by round is asked with nothing, or with what no database tells. */
const WITHOUT_DATABASE = {} as Database

/** Of one car, of today or of this computer: what these take must not grow with the years. */
export const MUST_NOT_GROW: readonly QueryName[] = [
  'session',
  'workshop',
  'catalogue',
  'typeUse',
  'shopFloor',
  'car',
  'repair',
  'daySheet',
  'record',
  'plan',
  'planHistory',
  'beyondAgreed',
  'variationDraft',
  'estimate',
  'hoursSheet',
  'cardPhotoKnown',
  'carMoney',
  'rates',
  'varianceWork',
  'varianceEntries',
  'varianceCurves',
  'network',
  'devices',
]
