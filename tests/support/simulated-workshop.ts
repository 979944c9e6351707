import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'
import { CAR_CORRELATION_PRIOR } from '../../domain/estimate/car-correlation.ts'
import { isBehind, MULTIPLE_PRIOR } from '../../domain/estimate/grade-multiples.ts'
import { HIDDEN_GRADE_PRIOR, OUTSIDE_PRIOR } from '../../domain/estimate/hidden-grades.ts'
import type { RepairToEstimate } from '../../domain/estimate/repair-band.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { type Gate, GATES } from '../../domain/gates.ts'
import { carIdSchema, personIdSchema, repairIdSchema, typeIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { REPAIR_CORRELATION } from '../../domain/plan/likelihood/prior.ts'
import { normalCdf } from '../../domain/statistics/normal.ts'
import { createRandom } from './random.ts'
import { slug } from './plans.ts'

/** How an invented workshop really is: what its estimates do not know. Deviations are of logarithms. */
export interface WorkshopTruth {
  readonly types: readonly TypeTruth[]
  /** What the gates after assessed take by the worst hidden grade, as multiples of what they look like from outside. */
  readonly multiples: Readonly<Record<Grade, number>>
  /** Who estimates, and what multiple of the right figure they write down. */
  readonly estimators: readonly { readonly name: string; readonly says: number }[]
  /** How far a written figure lies from what its estimator should write. */
  readonly estimateDeviation: number
  /** How alike the repairs of one car turn out, in what they hide and in how they go: of their normal scores. */
  readonly carCorrelation: number
  /** Share of the repairs that are priced again once assessed, and how well. */
  readonly pricedAgain: { readonly share: number; readonly deviation: number }
  /** Share of the gates that are done twice, in part. */
  readonly reworkShare: number
  readonly ungradedShare: number
}

export interface TypeTruth {
  /** In the plural. */
  readonly name: string
  /** Person-hours of the gates as they look from outside, at the right figure. */
  readonly hours: Readonly<Record<Gate, number>>
  readonly hiddenLayers: readonly string[]
  readonly outside: Readonly<Record<Grade, number>>
  readonly inside: Readonly<Record<Grade, Readonly<Record<Grade, number>>>>
  /** All of its repairs take so many times the right figure. */
  readonly runs: number
  /** Between repairs, and between the gates of one repair. */
  readonly repairDeviation: number
  readonly gateDeviation: number
}

/** A repair with its whole story; it can be looked at before its end. */
export interface SimulatedRepair {
  readonly finished: FinishedRepair
  /** As it stood when so many of its gates were done, and a share of the hours of the next one spent. */
  readonly at: (gatesDone: number, begun?: number) => RepairToEstimate
}

export type SimulatedCar = readonly SimulatedRepair[]

/** Cars of an invented workshop, one after the other; the same for the same seed. */
export function createSimulatedWorkshop(
  seed: number,
  truth: WorkshopTruth = usualTruth(),
): (repairs: number, typeOf?: (index: number) => number) => SimulatedCar {
  const chance = createChance(seed)
  let [cars, finished] = [0, 0]
  return (repairs, typeOf) => {
    cars += 1
    const car = { number: cars, luck: chance.normal() }
    return Array.from({ length: repairs }, (_, index) => {
      finished += 1
      const type = truth.types[typeOf?.(index) ?? chance.below(truth.types.length)]!
      return simulateRepair(chance, truth, type, car, finished)
    })
  }
}

/** So many finished repairs of each type, on cars of so many. */
export function simulatedHistory(
  next: ReturnType<typeof createSimulatedWorkshop>,
  truth: WorkshopTruth,
  perType: number,
  perCar = 5,
): readonly FinishedRepair[] {
  const types = truth.types.length
  const rows: FinishedRepair[] = []
  while (rows.length < perType * types) {
    const from = rows.length
    const repairs = Math.min(perCar, perType * types - from)
    rows.push(...next(repairs, (index) => (from + index) % types).map(({ finished }) => finished))
  }
  return rows
}

function simulateRepair(
  chance: Chance,
  truth: WorkshopTruth,
  type: TypeTruth,
  car: { readonly number: number; readonly luck: number },
  number: number,
): SimulatedRepair {
  const estimator = truth.estimators[chance.below(truth.estimators.length)]!
  const outside = chance.grade(type.outside)
  const score = (): number =>
    Math.sqrt(truth.carCorrelation) * car.luck + Math.sqrt(1 - truth.carCorrelation) * chance.normal()
  const worst = type.hiddenLayers.length === 0 ? null : gradeAt(type.inside[outside], normalCdf(score()))
  const multiple = worst === null ? 1 : truth.multiples[worst]
  const size = 0.6 + 0.9 * chance.next()
  const written = estimator.says * Math.exp(truth.estimateDeviation * chance.normal())
  const turned = type.runs * Math.exp(type.repairDeviation * score())
  const again =
    chance.next() < truth.pricedAgain.share
      ? multiple * Math.exp(truth.pricedAgain.deviation * chance.normal())
      : 1
  const gates = Object.fromEntries(
    GATES.map((gate) => {
      const right = type.hours[gate] * size
      const before = right * written
      const noise = Math.exp(type.gateDeviation * chance.normal() - type.gateDeviation ** 2 / 2)
      const first = right * turned * noise * (isBehind(gate) ? multiple : 1)
      const rework = chance.next() < truth.reworkShare ? first * (0.2 + 0.4 * chance.next()) : 0
      const assessed = before * (isBehind(gate) ? again : 1)
      return [gate, { before, assessed, actual: first + rework, rework }]
    }),
  ) as unknown as FinishedRepair['gates']
  const grades = layerGrades(chance, type.hiddenLayers, worst)
  const total = (figure: 'before' | 'assessed' | 'actual'): number =>
    GATES.reduce((sum, gate) => sum + gates[gate][figure], 0)
  const finished: FinishedRepair = {
    repairId: repairIdSchema.parse(`repair-${number}-simulated`),
    carId: carIdSchema.parse(`car-${car.number}-simulated`),
    visitId: visitIdSchema.parse(`visit-${car.number}-simulated`),
    typeId: typeIdSchema.parse(`type-${slug(type.name)}`),
    estimator: personIdSchema.parse(`person-${slug(estimator.name)}`),
    finished: { number, at: number * 3_600_000 },
    before: total('before'),
    assessed: total('assessed'),
    actual: total('actual'),
    gates,
    outside: chance.next() < truth.ungradedShare ? null : outside,
    hidden: type.hiddenLayers.map((name, index) => ({ name, grade: grades[index]! })),
    worstHidden: worst,
  }
  return { finished, at: (done, begun = 0) => standingAt(finished, type.name, done, begun) }
}

/** One of the layers is the worst, the others no worse. */
function layerGrades(chance: Chance, layers: readonly string[], worst: Grade | null): readonly Grade[] {
  if (worst === null) return []
  const at = chance.below(layers.length)
  return layers.map((_, index) => (index === at ? worst : GRADES[chance.below(GRADES.indexOf(worst) + 1)]!))
}

function standingAt(
  { typeId, outside, hidden, worstHidden, gates }: FinishedRepair,
  what: string,
  done: number,
  begun: number,
): RepairToEstimate {
  return {
    typeId,
    what,
    outside,
    hiddenLayers: hidden.length,
    worstHidden: done >= 2 ? worstHidden : null,
    gates: Object.fromEntries(
      GATES.map((gate, index) => {
        const { before, assessed, actual, rework } = gates[gate]
        const share = index < done ? 1 : index === done ? begun : 0
        const now = done >= 2 ? assessed : before
        return [
          gate,
          {
            before,
            assessed: now,
            points: { shortest: 0.7 * now, likely: 0.925 * now, longest: 1.6 * now },
            isDone: index < done,
            spent: share * (actual - rework),
            rework: 0,
          },
        ]
      }),
    ) as unknown as RepairToEstimate['gates'],
  }
}

const GATE_SHARES: Readonly<Record<Gate, number>> = {
  opened: 0.08,
  assessed: 0.06,
  fabricated: 0.34,
  sealed: 0.06,
  primed: 0.06,
  'trial-fitted': 0.1,
  welded: 0.22,
  painted: 0.08,
}

export const gateHoursOf = (whole: number): Readonly<Record<Gate, number>> =>
  Object.fromEntries(GATES.map((gate) => [gate, whole * GATE_SHARES[gate]])) as unknown as Record<
    Gate,
    number
  >

/** Five types that differ in size, in what they hide and in how far they run over; three estimators. */
export function usualTruth(over: Partial<WorkshopTruth> = {}): WorkshopTruth {
  const type = (name: string, whole: number, more: Partial<TypeTruth> = {}): TypeTruth => ({
    name,
    hours: gateHoursOf(whole),
    hiddenLayers: ['inner panel', 'strengthener'],
    outside: OUTSIDE_PRIOR,
    inside: HIDDEN_GRADE_PRIOR,
    runs: 1,
    repairDeviation: 0.2,
    gateDeviation: 0.25,
    ...more,
  })
  return {
    types: [
      type('sills', 34, { runs: 1.12, inside: WORSE }),
      type('spring hangers', 18, { inside: WORSE }),
      type('wheel arches', 26, { runs: 0.95 }),
      type('floor edges', 14, { runs: 1.2, inside: BETTER, hiddenLayers: ['cross-member flange'] }),
      type('door skins', 12, { runs: 0.9, hiddenLayers: [], repairDeviation: 0.24 }),
    ],
    multiples: { sound: 0.72, surface: 0.85, pitted: 1.05, holed: 1.45, gone: 1.95 },
    estimators: [
      { name: 'Maren', says: 1.05 },
      { name: 'Wren', says: 0.93 },
      { name: 'Joss', says: 1 },
    ],
    estimateDeviation: 0.06,
    carCorrelation: 0.3,
    pricedAgain: { share: 0.5, deviation: 0.08 },
    reworkShare: 0.06,
    ungradedShare: 0.05,
    ...over,
  }
}

const WORSE: TypeTruth['inside'] = {
  sound: { sound: 0.3, surface: 0.3, pitted: 0.25, holed: 0.1, gone: 0.05 },
  surface: { sound: 0.04, surface: 0.21, pitted: 0.4, holed: 0.27, gone: 0.08 },
  pitted: { sound: 0.01, surface: 0.05, pitted: 0.24, holed: 0.5, gone: 0.2 },
  holed: { sound: 0, surface: 0.02, pitted: 0.08, holed: 0.4, gone: 0.5 },
  gone: { sound: 0, surface: 0, pitted: 0.05, holed: 0.2, gone: 0.75 },
}

const BETTER: TypeTruth['inside'] = {
  sound: { sound: 0.75, surface: 0.2, pitted: 0.04, holed: 0.01, gone: 0 },
  surface: { sound: 0.3, surface: 0.45, pitted: 0.2, holed: 0.05, gone: 0 },
  pitted: { sound: 0.1, surface: 0.25, pitted: 0.45, holed: 0.17, gone: 0.03 },
  holed: { sound: 0.05, surface: 0.1, pitted: 0.3, holed: 0.45, gone: 0.1 },
  gone: { sound: 0.02, surface: 0.05, pitted: 0.13, holed: 0.4, gone: 0.4 },
}

/**
 * A workshop as the program believes it to be before anything is finished: each type's mean and spread drawn from the usual
 * prior, grades and multiples as stated.
 */
export function priorTruth(seed: number, types: number): WorkshopTruth {
  const chance = createChance(seed)
  return usualTruth({
    types: Array.from({ length: types }, (_, index) => {
      const variance = 0.05 / chance.gammaOfTwo()
      const mean = Math.sqrt(variance) * chance.normal()
      // So that the gates of a repair have in common what is believed, and their sum varies as its type does.
      const gateVariance = variance / (REPAIR_CORRELATION + (1 - REPAIR_CORRELATION) * GATES_APART)
      return {
        name: `type ${index + 1}`,
        hours: gateHoursOf(20),
        hiddenLayers: ['inner panel'],
        outside: OUTSIDE_PRIOR,
        inside: HIDDEN_GRADE_PRIOR,
        runs: Math.exp(mean),
        repairDeviation: Math.sqrt(gateVariance * REPAIR_CORRELATION),
        gateDeviation: Math.sqrt(gateVariance * (1 - REPAIR_CORRELATION)),
      }
    }),
    multiples: Object.fromEntries(
      GRADES.map((grade) => [grade, MULTIPLE_PRIOR[grade] * Math.exp(MULTIPLE_DEVIATION * chance.normal())]),
    ) as unknown as Record<Grade, number>,
    estimators: [{ name: 'Maren', says: 1 }],
    estimateDeviation: 0,
    carCorrelation: CAR_CORRELATION_PRIOR,
    pricedAgain: { share: 0, deviation: 0 },
    reworkShare: 0,
    ungradedShare: 0,
  })
}

/** A multiple's prior is worth four repairs that vary as the usual prior says. */
const MULTIPLE_DEVIATION = Math.sqrt(0.05 / 4)

/** What is left of the variance of eight gates in their sum when they have nothing in common. */
const GATES_APART = GATES.reduce((sum, gate) => sum + GATE_SHARES[gate] ** 2, 0)

interface Chance {
  readonly next: () => number
  readonly below: (bound: number) => number
  readonly normal: () => number
  readonly gammaOfTwo: () => number
  readonly grade: (shares: Readonly<Record<Grade, number>>) => Grade
}

function createChance(seed: number): Chance {
  const { next } = createRandom(seed)
  const exponential = (): number => -Math.log(1 - next())
  return {
    next,
    below: (bound) => Math.floor(next() * bound),
    // Box and Muller.
    normal: () => Math.sqrt(2 * exponential()) * Math.cos(2 * Math.PI * next()),
    gammaOfTwo: () => exponential() + exponential(),
    grade: (shares) => gradeAt(shares, next()),
  }
}

/** The grade at a place, 0 to 1, of the line that the shares make from best to worst. */
function gradeAt(shares: Readonly<Record<Grade, number>>, place: number): Grade {
  let left = place * GRADES.reduce((sum, grade) => sum + shares[grade], 0)
  return GRADES.find((grade) => (left -= shares[grade]) < 0) ?? 'gone'
}
