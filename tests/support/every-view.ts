import { TRPCClientError } from '@trpc/client'
import type { inferRouterInputs } from '@trpc/server'
import type { Database } from '../../db/database.ts'
import { factsSince } from '../../db/journal.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { varianceSum } from '../../db/schema.ts'
import type { CarState } from '../../domain/car.ts'
import { BANDS_WHEN } from '../../domain/facts/agreement-facts.ts'
import {
  dateToIsoWeek,
  formatIsoWeek,
  nextIsoWeek,
  previousIsoWeek,
  type IsoWeek,
} from '../../domain/time/iso-week.ts'
import { createRouter, type AppRouter } from '../../electron/api/router.ts'
import type { TestScreen } from './host.ts'

type Procedures = AppRouter['_def']['procedures']
export type QueryName = {
  [K in keyof Procedures]: Procedures[K] extends { readonly _def: { readonly type: 'query' } } ? K : never
}[keyof Procedures]
export type Inputs = inferRouterInputs<AppRouter>

/** All that can be asked for in a workshop, query by query. */
type EveryInput = { readonly [Q in QueryName]: (db: Database) => readonly Inputs[Q][] }

const once = () => [undefined]
const ofCars = (db: Database) => readAllCars(db).map(({ id }) => ({ carId: id }))
const ofRepairs = (db: Database) =>
  ofEach(db, ({ repairs }) => repairs.keys().map((repairId) => ({ repairId })))
const ofVisits = (db: Database) => ofEach(db, ({ visits }) => visits.keys().map((visitId) => ({ visitId })))
const ofTypes = (db: Database) => [...readWorkshop(db).types.keys()].map((typeId) => ({ typeId }))
const ofPhotos = (db: Database) =>
  readAllCars(db).flatMap((car) => [...car.attachments.values()].map(({ sha256 }) => ({ sha256 })))
const ofSums = (db: Database) => db.reader.orm.select().from(varianceSum).all()

/** A query that is new stands here too, or neither the compiler nor the test that goes through them is content. */
export const everyInput: EveryInput = {
  session: once,
  workshop: once,
  catalogue: once,
  typeUse: ofTypes,
  shopFloor: once,
  cars: once,
  car: ofCars,
  repair: ofRepairs,
  daySheet: (db) => [...readWorkshop(db).people.keys()].map((personId) => ({ personId })),
  ownerDecisions: once,
  record: (db) => [{ carId: null }, ...ofCars(db)],
  find: (db) => [
    { text: 'as' },
    ...readAllCars(db).map(({ name, shellNumber }) => ({ text: `${name} ${shellNumber}` })),
  ],
  ownerReports: (db) => weeksOf(db).map((week) => ({ week: formatIsoWeek(week) })),
  plan: once,
  planHistory: ofCars,
  beyondAgreed: ofCars,
  variationDraft: ofRepairs,
  estimate: ofCars,
  hoursSheet: ofCars,
  cardPhotoKnown: ofPhotos,
  carFileProgress: () => [{ watch: '00000000-0000-4000-8000-000000000000' }],
  bringInProgress: () => [{ fileId: '00000000-0000-4000-8000-000000000000' }],
  carMoney: ofCars,
  rates: once,
  variance: once,
  varianceDrill: (db) => distinct(ofSums(db).map(({ grouping, key }) => ({ grouping, key }))),
  varianceWork: (db) =>
    ofSums(db).map(({ grouping, key, carId, visitId }) => ({ grouping, key, carId, visitId })),
  varianceEntries: (db) => distinct(ofSums(db).map(({ grouping, key, carId }) => ({ grouping, key, carId }))),
  varianceCurves: ofVisits,
  hoursProposal: ofTypes,
  wereWeRight: () => BANDS_WHEN.flatMap((when) => [null, 1, 5].map((last) => ({ when, last }))),
  demoProgress: once,
  wholeWorkshop: once,
  check: once,
  network: once,
  updates: once,
  takingIn: once,
  copies: once,
  erased: once,
  erasing: (db) => [...readWorkshop(db).parties.keys()].map((id) => ({ id })),
  copiesThere: once,
  copiesWarning: once,
  copiesIn: () => [{ folder: '/nowhere' }],
  restoring: once,
  devices: once,
}

/** Every call that the router itself has, and whether it is a query, a mutation or a subscription. */
export function proceduresOfRouter(): ReadonlyMap<string, string> {
  const services = { deps: {}, sessions: {}, revisions: {} }
  const { procedures } = createRouter(services as never, {} as never, {} as never)._def
  const each = Object.entries(procedures as Record<string, { readonly _def: { readonly type: string } }>)
  return new Map(each.map(([name, { _def }]) => [name, _def.type]))
}

/** Names of the queries that the router itself has. */
export function queriesOfRouter(): readonly string[] {
  return [...proceduresOfRouter()].filter(([, type]) => type === 'query').map(([name]) => name)
}

/** Every answer of every query, by what was asked; a refusal by its words. */
export async function everyAnswer(screen: TestScreen, db: Database): Promise<ReadonlyMap<string, unknown>> {
  const answers = new Map<string, unknown>()
  const client = screen.client as unknown as Record<string, { query: (input: unknown) => Promise<unknown> }>
  for (const [name, inputs] of Object.entries(everyInput))
    for (const input of inputs(db))
      answers.set(`${name} ${JSON.stringify(input)}`, await answerOf(() => client[name]!.query(input)))
  return answers
}

async function answerOf(ask: () => Promise<unknown>): Promise<unknown> {
  try {
    return await ask()
  } catch (error) {
    if (error instanceof TRPCClientError && error.data?.refusal) return { refused: error.data.refusal }
    throw error
  }
}

function ofEach<T>(db: Database, idsOf: (car: CarState) => Iterable<T>) {
  return readAllCars(db).flatMap((car) => [...idsOf(car)].map((ids) => ({ carId: car.id, ...ids })))
}

function distinct<T>(asked: readonly T[]): readonly T[] {
  return [...new Map(asked.map((each) => [JSON.stringify(each), each])).values()]
}

/** From the week before the first fact to the week after the last. */
function weeksOf(db: Database): readonly IsoWeek[] {
  const facts = factsSince(db, 0)
  const weekOf = (at: string | undefined) => dateToIsoWeek((at ?? '').slice(0, 10))
  const end = formatIsoWeek(nextIsoWeek(nextIsoWeek(weekOf(facts.at(-1)?.recorded))))
  const weeks = [previousIsoWeek(weekOf(facts[0]?.recorded))]
  while (formatIsoWeek(nextIsoWeek(weeks.at(-1)!)) !== end) weeks.push(nextIsoWeek(weeks.at(-1)!))
  return weeks
}
