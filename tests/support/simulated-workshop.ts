import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'
import type { RepairToEstimate } from '../../domain/estimate/repair-band.ts'
import { isBehind } from '../../domain/estimate/work-point.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { carIdSchema, personIdSchema, repairIdSchema, typeIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { normalCdf } from '../../domain/statistics/normal.ts'
import { slug } from './plans.ts'
import { type Chance, createChance, gradeAt } from './simulated-chance.ts'
import { type TypeTruth, usualTruth, type WorkshopTruth } from './workshop-truth.ts'

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
    const car = { number: cars, rust: chance.normal(), work: chance.normal() }
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
  car: { readonly number: number; readonly rust: number; readonly work: number },
  number: number,
): SimulatedRepair {
  const estimator = truth.estimators[chance.below(truth.estimators.length)]!
  const outside = chance.grade(type.outside)
  const score = (ofCar: number): number =>
    Math.sqrt(truth.carCorrelation) * ofCar + Math.sqrt(1 - truth.carCorrelation) * chance.normal()
  const worst =
    type.hiddenLayers.length === 0 ? null : gradeAt(type.inside[outside], normalCdf(score(car.rust)))
  const multiple = worst === null ? 1 : truth.multiples[worst]
  const size = 0.6 + 0.9 * chance.next()
  const written = estimator.says * Math.exp(truth.estimateDeviation * chance.normal())
  const turned = type.runs * Math.exp(type.repairDeviation * score(car.work))
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
    taken: false,
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
    taken: null,
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
