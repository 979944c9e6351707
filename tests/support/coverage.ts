import { carBand } from '../../domain/estimate/car-band.ts'
import type { EstimateHistory } from '../../domain/estimate/estimate-history.ts'
import { proposeEstimate } from '../../domain/estimate/estimate-proposal.ts'
import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'
import type { OneSided } from '../../domain/estimate/learned-ratios.ts'
import { type GateToEstimate, repairBand } from '../../domain/estimate/repair-band.ts'
import { type Gate, GATES } from '../../domain/gates.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { createEstimateHistory } from './estimate-history.ts'
import { priorTruth } from './simulated-truth.ts'
import {
  createSimulatedWorkshop,
  type SimulatedCar,
  type SimulatedRepair,
  simulatedHistory,
} from './simulated-workshop.ts'
import { usualTruth, type WorkshopTruth } from './workshop-truth.ts'

const CARS = 8
const REPAIRS = 4

/** Gates done, and the share of the next one's hours that is spent. */
const STAGES = [
  ['before opening', 0, 0],
  ['at assessed', 2, 0],
  ['in work', 2, 0.6],
  ['in work', 3, 0],
] as const

export type Truth = (seed: number) => WorkshopTruth

/** Each workshop drawn from what the prior says. */
export const AS_STATED: Truth = (seed) => priorTruth(1000 + seed, 5)
/** Types that hide worse and run over, work done twice: none of it does the prior know. */
export const ANOTHER: Truth = () => usualTruth()

/** How many were judged, and the percent of them at or under each figure. */
export type Covered = { readonly jobs: number } & OneSided

export interface Coverage {
  readonly add: (stage: string, hours: OneSided, actual: number) => void
  /** By stage. */
  readonly covered: () => ReadonlyMap<string, Covered>
}

export function createCoverage(): Coverage {
  const stages = new Map<string, { jobs: number; p50: number; p80: number; p90: number }>()
  return {
    add: (stage, hours, actual) => {
      const counts = stages.get(stage) ?? { jobs: 0, p50: 0, p80: 0, p90: 0 }
      stages.set(stage, counts)
      counts.jobs += 1
      for (const figure of ['p50', 'p80', 'p90'] as const) if (actual <= hours[figure]) counts[figure] += 1
    },
    covered: () =>
      new Map(
        [...stages].map(([stage, { jobs, p50, p80, p90 }]) => {
          const percent = (count: number) => (100 * count) / jobs
          return [stage, { jobs, p50: percent(p50), p80: percent(p80), p90: percent(p90) }]
        }),
      ),
  }
}

export interface WorkshopsToCover {
  /** A workshop each. */
  readonly seeds: readonly number[]
  /** Finished repairs of each type, before any is judged. */
  readonly perType: number
  readonly repairs: Coverage
}

/** Judges eight cars of four repairs in each workshop, at every stage. */
export function coverWorkshops(
  truthOf: Truth,
  { seeds, perType, repairs, cars }: WorkshopsToCover & { readonly cars: Coverage },
): void {
  for (const seed of seeds) {
    const truth = truthOf(seed)
    const next = createSimulatedWorkshop(seed, truth)
    const history = createEstimateHistory(simulatedHistory(next, truth, perType))
    for (let car = 0; car < CARS; car += 1) judge(history, next(REPAIRS), { repairs, cars })
  }
}

/** The same before opening alone, where the hours were taken as they are proposed from finished repairs. */
export function coverTaken({ seeds, perType, repairs }: WorkshopsToCover): void {
  for (const seed of seeds) {
    const next = createSimulatedWorkshop(3000 + seed)
    const finished = simulatedHistory(next, usualTruth(), perType)
    const history = createEstimateHistory(finished)
    for (let car = 0; car < CARS; car += 1)
      for (const repair of next(REPAIRS))
        repairs.add('before opening', takenBand(history, finished, repair).hours, repair.finished.actual)
  }
}

function judge(
  history: EstimateHistory,
  car: SimulatedCar,
  { repairs, cars }: { readonly repairs: Coverage; readonly cars: Coverage },
): void {
  const actual = car.reduce((sum, { finished }) => sum + finished.actual, 0)
  for (const [stage, done, begun] of STAGES) {
    const bands = bandsOf(history, car, done, begun)
    bands.forEach((band, index) => repairs.add(stage, band.hours, car[index]!.finished.actual))
    const pieces = bands.map((band, index) => ({ repairId: car[index]!.finished.repairId, band }))
    const draws = { samples: 400, seed: 1, correlation: history.correlation }
    cars.add(stage, carBand({ repairs: pieces, tasks: [] }, draws)!.hours, actual)
  }
}

const bandsOf = (history: EstimateHistory, car: SimulatedCar, done: number, begun: number) =>
  car.map((repair) => {
    const band = repairBand(history, repair.at(done, begun))
    if (band === null) throw new Error('There should be a band.')
    return band
  })

/** As it stands before opening when the proposed hours were taken as they are. */
function takenBand(history: EstimateHistory, finished: readonly FinishedRepair[], repair: SimulatedRepair) {
  const { gates, taken } = proposeEstimate(finished, repair.finished.typeId, null)!
  const stands = repair.at(0)
  const hours = (gate: Gate): GateToEstimate => {
    const points = gates[gate]!
    const expected = expectedHours(points)
    return { ...stands.gates[gate], before: expected, assessed: expected, points }
  }
  const proposed = Object.fromEntries(
    GATES.map((gate) => [gate, hours(gate)]),
  ) as unknown as typeof stands.gates
  return repairBand(history, { ...stands, gates: proposed, taken })!
}
