import { GATES } from '../../domain/gates.ts'
import { entryIdSchema } from '../../domain/ids.ts'
import { createStateCache } from '../../db/state-cache.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { manager } from '../support/workshop.ts'
import { fillLargeWorkshop, LARGE, type LargeWorkshop } from './large-workshop.ts'

const ROUNDS = 60
const SECONDS_BETWEEN = 20

export interface VarianceFigures {
  readonly cars: number
  readonly repairs: number
  readonly entries: number
  /** All at the handler, from the request to the parsed answer. */
  readonly viewP95Ms: number
  /** Of a figure to its visits, and of a visit to its repairs and gates. */
  readonly drillP95Ms: number
  readonly entriesP95Ms: number
  /** Of one visit's weeks. */
  readonly curvesP95Ms: number
  /** The first view of a host that has just started: no car's state is in memory. */
  readonly coldMs: number
  /** P95 of a time entry's command on a car in work. */
  readonly writeMs: number
  readonly buildSeconds: number
}

/** Times the Variance screen's calls on years of work, with clocks running and the host's clock going on between calls. */
export async function benchVariance(): Promise<VarianceFigures> {
  const host = await createTestHost()
  try {
    host.workshop.now += 6 * 3_600_000
    const begun = performance.now()
    const large = fillLargeWorkshop(host.workshop, LARGE)
    const buildSeconds = Math.round((performance.now() - begun) / 1_000)
    const screen = await host.openScreen()
    await screen.signIn(manager)
    return { ...(await times(host, screen, large)), buildSeconds }
  } finally {
    await host.close()
  }
}

async function times(
  host: TestHost,
  { client, run }: TestScreen,
  { cars, inWork }: LargeWorkshop,
): Promise<Omit<VarianceFigures, 'buildSeconds'>> {
  await client.session.query()
  const coldMs = await cold(host, () => client.variance.query())
  const pick = (round: number) => cars[(round * 37) % cars.length] as (typeof cars)[number]
  const gate = (round: number) => GATES[round % GATES.length] as string
  const viewP95Ms = await p95(host, () => client.variance.query())
  const drillMs = await p95(host, (round) =>
    round % 2 === 0
      ? client.varianceDrill.query({ grouping: 'gate', key: gate(round) })
      : client.varianceWork.query({ grouping: 'gate', key: gate(round), ...idsOf(pick(round)) }),
  )
  const entriesP95Ms = await p95(host, (round) =>
    client.varianceEntries.query({ grouping: 'gate', key: gate(round), carId: pick(round + 7).carId }),
  )
  const curvesP95Ms = await p95(host, (round) => client.varianceCurves.query(idsOf(pick(round + 13))))
  const writeMs = await p95(host, (round) => {
    const car = inWork[round % inWork.length] as (typeof inWork)[number]
    const date = new Date(host.workshop.now - 86_400_000 * (round + 7)).toISOString().slice(0, 10)
    return run(
      'logTime',
      {
        entryId: entryIdSchema.parse(`entry-bench-${round}`),
        personId: manager,
        on: { kind: 'work', targets: [{ kind: 'gate', repairId: car.repairs[0]!, gate: 'painted' }] },
        hotWork: false,
        cause: null,
        time: { kind: 'day', date, hours: 0.25 },
        shares: null,
        note: '',
      },
      { carId: car.carId },
    )
  })
  const { cars: count, repairsPerCar, entriesPerCar } = LARGE
  const counts = { cars: count, repairs: count * repairsPerCar, entries: count * entriesPerCar }
  return { ...counts, viewP95Ms, drillP95Ms: drillMs, entriesP95Ms, curvesP95Ms, coldMs, writeMs }
}

const idsOf = ({ carId, visitId }: LargeWorkshop['cars'][number]) => ({ carId, visitId })

async function cold({ workshop }: TestHost, call: () => Promise<unknown>): Promise<number> {
  Object.assign(workshop.db.cache, createStateCache())
  return timed(call)
}

/** The first calls warm the compiler up and do not count. */
async function p95({ workshop }: TestHost, call: (round: number) => Promise<unknown>): Promise<number> {
  const warmUp = 20
  const durations: number[] = []
  for (let round = 0; round < ROUNDS + warmUp; round += 1) {
    workshop.pass({ minutes: SECONDS_BETWEEN / 60 })
    const ms = await timed(() => call(round))
    if (round >= warmUp) durations.push(ms)
  }
  return durations.toSorted((a, b) => a - b)[Math.ceil(0.95 * ROUNDS) - 1] ?? 0
}

async function timed(call: () => Promise<unknown>): Promise<number> {
  const begun = performance.now()
  await call()
  return Math.round((performance.now() - begun) * 10) / 10
}
