import { type Grade, GRADES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { REPAIR_CORRELATION } from '../plan/likelihood/prior.ts'
import { carCorrelation } from './car-correlation.ts'
import type { FinishedRepair } from './finished-repair.ts'
import { type GradeMultiples, gradeMultiples, isBehind } from './grade-multiples.ts'
import { type FoundLayer, gradeShares, type HiddenGrades, hiddenGrades } from './hidden-grades.ts'
import { type LearnedRatios, learnRatios } from './learned-ratios.ts'
import { curveOf, type RatioCurve } from './ratio-curve.ts'
import { spreadWithin, USUAL_PRIOR } from './log-ratios.ts'
import { sumOf } from './repair-hours.ts'
import { learnSeverity, tilted } from './severity.ts'
import {
  carriedSlope,
  slopeOfUnknown,
  usualAt,
  type WentOn,
  wentOnFrom,
  type WorkPoint,
} from './work-point.ts'

/** What a workshop's finished repairs tell, learned once for many estimates. */
export interface EstimateHistory {
  /** Finished repairs that it rests on. */
  readonly repairs: number
  readonly multiples: GradeMultiples
  /** Of the logarithms of actual / expected between repairs of one car that are not assessed, 0 to below 1. */
  readonly correlation: number
  /** Likelihoods of the worst hidden grade of a repair of this type; null: it has no type, or nobody graded the outside. */
  readonly worstOf: (typeId: TypeId | null, outside: Grade | null) => HiddenGrades
  /** The same for one hidden layer of the type, by its name. */
  readonly layerOf: (typeId: TypeId | null, layer: string, outside: Grade | null) => HiddenGrades
  /** How a repair of this type goes on from a point of its work. */
  readonly learnedAt: (typeId: TypeId | null, point: WorkPoint) => LearnedPoint
}

export interface LearnedPoint {
  readonly ratios: LearnedRatios
  readonly curve: RatioCurve
  /** Between repairs of one car from here on, 0 to below 1. */
  readonly correlation: number
  /** How much of the overrun of the gates done after assessed the rest follows. */
  readonly slope: number
}

/** @param finished in any order; rows without an estimate or hours above 0 are no history and are left out */
export function createEstimateHistory(finished: readonly FinishedRepair[]): EstimateHistory {
  const ordered = finished.filter(isHistory).toSorted((a, b) => a.finished.number - b.finished.number)
  const byType = Map.groupBy(ordered, ({ typeId }) => typeId)
  // Hours taken from finished repairs say nothing of how far people's estimates are off.
  const estimated = ordered.filter(({ taken }) => !taken)
  const estimatedByType = Map.groupBy(estimated, ({ typeId }) => typeId)
  const ofType = (typeId: TypeId | null): readonly FinishedRepair[] =>
    typeId === null ? [] : (byType.get(typeId) ?? [])
  const multiples = gradeMultiples(estimated)
  const priorOf = gradePriors(byType)
  const expectedMultiple = expectedMultiples(byType, multiples, priorOf)
  const worstOf = remembered(
    (typeId: TypeId | null, outside: Grade | null) => `${typeId ?? ''} ${outside ?? ''}`,
    (typeId, outside) => hiddenGrades(outside, ofType(typeId).flatMap(worstLayer), priorOf(typeId, outside)),
  )
  const multipleOf = (repair: FinishedRepair): number => {
    if (repair.worstHidden !== null) return multiples[repair.worstHidden].multiple
    return repair.hidden.length === 0 ? 1 : expectedMultiple(repair)
  }
  const pointFor = remembered(
    ({ done }: WorkPoint) => done.join(' '),
    (point) => learnPoint(estimatedByType, point, multipleOf),
  )
  return {
    repairs: ordered.length,
    multiples,
    correlation: carCorrelation(byCar(surprises(estimatedByType, expectedMultiple))),
    worstOf,
    layerOf: (typeId, layer, outside) =>
      hiddenGrades(
        outside,
        ofType(typeId).flatMap((repair) => layerFound(repair, layer)),
      ),
    learnedAt: remembered(
      (typeId: TypeId | null, { done }: WorkPoint) => `${typeId ?? ''} ${done.join(' ')}`,
      (typeId, point) => {
        const { slope, correlation, cars, logs } = pointFor(point)
        const ratios = learnRatios(
          typeId === null ? [] : (logs.get(typeId) ?? []),
          [...logs].filter(([type]) => type !== typeId || type === null).map(([, others]) => others),
          usualAt(point),
          { cars, correlation },
        )
        return {
          ratios,
          curve: curveOf(ratios),
          correlation,
          slope: slopeOfUnknown(slope, ratios.rests.own + ratios.rests.others),
        }
      },
    ),
  }
}

/**
 * Repairs of one car have in common, besides their luck, what was learned wrong: for all types, for theirs, and for the grade
 * that they hide.
 *
 * @param ofGrade what the multiple of the grade may be wrong by, in variances of a repair
 */
export function inCommon(correlation: number, { unsure }: LearnedRatios, ofGrade: number): number {
  const ofType = SAME_TYPE * (unsure.all - unsure.common)
  const shared = correlation + unsure.common + ofType + SAME_GRADE * ofGrade
  return shared / (1 + unsure.all + ofGrade)
}

/** Of a car's other repairs, those of the same type and of the same worst hidden grade. Invented for want of a source. */
const SAME_TYPE = 0.2
const SAME_GRADE = 0.3

type ByType = ReadonlyMap<TypeId | null, readonly FinishedRepair[]>

interface Point {
  readonly slope: number
  readonly correlation: number
  /** That the jobs lie on; at least 1. */
  readonly cars: number
  /** In finish order. */
  readonly logs: ReadonlyMap<TypeId | null, readonly number[]>
}

function learnPoint(byType: ByType, point: WorkPoint, multipleOf: (repair: FinishedRepair) => number): Point {
  const went = new Map(
    [...byType].map(([type, own]) => [
      type,
      own.flatMap((repair) => {
        const how = wentOnFrom(repair.gates, point, multipleOf(repair))
        return how === null ? [] : [{ ...how, car: repair.visitId }]
      }),
    ]),
  )
  const slope = carriedSlope([...went.values()], point.done.filter(isBehind).length, REPAIR_CORRELATION)
  const apart = ({ rest, carried }: WentOn): number => rest - slope * carried
  const cars = new Set([...went.values()].flatMap((own) => own.map(({ car }) => car)))
  return {
    slope,
    cars: Math.max(1, cars.size),
    correlation: carCorrelation(
      byCar([...went.values()].map((own) => own.map((each) => ({ car: each.car, log: apart(each) })))),
      slope,
    ),
    logs: new Map([...went].map(([type, own]) => [type, own.map(apart)])),
  }
}

/** Shares of the worst hidden grade before a type's own counts: the stated prior at the severity learned. */
function gradePriors(byType: ByType): (typeId: TypeId | null, outside: Grade | null) => readonly number[] {
  const ofWorkshop = learnSeverity([...byType.values()].flat().flatMap(worstLayer), 0)
  const ofTypes = new Map(
    [...byType].map(([type, own]) => [type, learnSeverity(own.flatMap(worstLayer), ofWorkshop)]),
  )
  return (typeId, outside) =>
    tilted(outside, typeId === null ? ofWorkshop : (ofTypes.get(typeId) ?? ofWorkshop))
}

/** What a repair was to be expected to take for its first estimate, by what showed outside: the geometric mean. */
function expectedMultiples(
  byType: ByType,
  multiples: GradeMultiples,
  priorOf: (typeId: TypeId | null, outside: Grade | null) => readonly number[],
): (repair: FinishedRepair) => number {
  return remembered(
    ({ typeId, outside }: FinishedRepair) => `${typeId ?? ''} ${outside ?? ''}`,
    ({ typeId, outside }) => {
      const found = typeId === null ? [] : (byType.get(typeId) ?? []).flatMap(worstLayer)
      const shares = gradeShares(outside, found, priorOf(typeId, outside))
      return Math.exp(
        GRADES.reduce((sum, grade, at) => sum + (shares[at] ?? 0) * Math.log(multiples[grade].multiple), 0),
      )
    },
  )
}

/** How far repairs ended from what was to be expected before they were opened. */
function surprises(
  byType: ByType,
  expectedMultiple: (repair: FinishedRepair) => number,
): readonly (readonly OfCar[])[] {
  return [...byType.values()].map((own) =>
    own.map((repair) => ({
      car: repair.visitId,
      log: surprise(repair, repair.hidden.length === 0 ? 1 : expectedMultiple(repair)),
    })),
  )
}

interface OfCar {
  readonly car: string
  readonly log: number
}

/**
 * Logarithms around the mean of their type, by car, all types drawn to the spread of the usual prior: a type that varies more
 * shall not decide alone how alike the repairs of a car are.
 */
function byCar(types: readonly (readonly OfCar[])[]): readonly (readonly number[])[] {
  const apart = types.flatMap((own) => {
    const mean = own.reduce((sum, { log }) => sum + log, 0) / (own.length + TYPE_REPAIRS)
    const scale = Math.sqrt(USUAL_PRIOR.scale / spreadWithin([own.map(({ log }) => log)]))
    return own.map(({ car, log }) => ({ car, log: (log - mean) * scale }))
  })
  return [...Map.groupBy(apart, ({ car }) => car).values()].map((own) => own.map(({ log }) => log))
}

/** The belief that a type's estimates are right in the mean, in finished repairs. */
const TYPE_REPAIRS = 2

function surprise(repair: FinishedRepair, multiple: number): number {
  const behind = GATES.filter(isBehind).reduce((sum, gate) => sum + repair.gates[gate].before, 0)
  const expected = sumOf(repair.gates, 'before') + (multiple - 1) * behind
  return Math.log(repair.actual / expected)
}

const isHistory = ({ before, actual }: FinishedRepair): boolean =>
  [before, actual].every((hours) => hours > 0 && Number.isFinite(hours))

const worstLayer = ({ outside, worstHidden }: FinishedRepair): readonly FoundLayer[] =>
  worstHidden === null ? [] : [{ outside, inside: worstHidden }]

const layerFound = ({ outside, hidden }: FinishedRepair, name: string): readonly FoundLayer[] =>
  hidden.flatMap((layer) =>
    layer.name === name && layer.grade !== null ? [{ outside, inside: layer.grade }] : [],
  )

function remembered<Args extends readonly unknown[], T>(
  keyOf: (...args: Args) => string,
  workOut: (...args: Args) => T,
): (...args: Args) => T {
  const known = new Map<string, T>()
  return (...args) => {
    const key = keyOf(...args)
    const last = known.get(key)
    if (last !== undefined) return last
    const value = workOut(...args)
    known.set(key, value)
    return value
  }
}
