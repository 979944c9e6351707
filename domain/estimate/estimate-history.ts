import { type Grade, GRADES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { carCorrelation, logsByCar, type TypeLogs } from './car-correlation.ts'
import type { FinishedRepair } from './finished-repair.ts'
import {
  finishedTable,
  type FinishedTable,
  groupedBy,
  placesOf,
  rowsByType,
  rowsWhere,
  sumAt,
  UNGRADED,
} from './finished-table.ts'
import { type GradeMultiples, gradeMultiples } from './grade-multiples.ts'
import {
  countFound,
  type FoundCounts,
  type FoundLayer,
  gradeShares,
  type HiddenGrades,
  hiddenGrades,
} from './hidden-grades.ts'
import {
  expectedAt,
  expectedPlaces,
  type LearnedPoint,
  learnPoint,
  type ToldRepairs,
} from './learned-point.ts'
import type { LearnedRatios } from './learned-ratios.ts'
import { learnSeverity, tilted } from './severity.ts'
import type { WorkPoint } from './work-point.ts'

/** What a workshop's finished repairs tell, learned once for many estimates. */
export interface EstimateHistory {
  /** What it was learned from; a later history takes its rows over. */
  readonly table: FinishedTable
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

/**
 * What finished repairs tell.
 *
 * @param repairs in finish order, with an estimate and hours above 0
 * @param near what mostly the same repairs told; it is only faster with it
 */
export function learnHistory(
  repairs: readonly FinishedRepair[],
  near: EstimateHistory | null = null,
): EstimateHistory {
  const table = finishedTable(repairs, near?.table ?? null)
  const multiples = gradeMultiples(table)
  const hidden = learnHidden(table)
  const worstOf = remembered((typeId: TypeId | null) =>
    remembered((outside: Grade | null) =>
      hiddenGrades(outside, hidden.foundOf(typeId), hidden.priorOf(typeId, outside)),
    ),
  )
  const layersOf = remembered((typeId: TypeId | null) =>
    remembered((layer: string) => countFound(layersFound(hidden.repairsOf(typeId), layer))),
  )
  const told = toldRepairs(table, multiples, hidden)
  const pointAt = remembered(
    (point: WorkPoint) => remembered(learnPoint(told, point)),
    ({ done }) => done.join(' '),
  )
  return {
    table,
    repairs: repairs.length,
    multiples,
    correlation: carCorrelation(logsByCar(surprises(told))),
    worstOf: (typeId, outside) => worstOf(typeId)(outside),
    layerOf: (typeId, layer, outside) => hiddenGrades(outside, layersOf(typeId)(layer)),
    learnedAt: (typeId, point) => pointAt(point)(typeId),
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

interface LearnedHidden {
  /** The worst hidden layers of a type; none of repairs without a type. */
  readonly foundOf: (typeId: TypeId | null) => FoundCounts
  /** Shares of the worst hidden grade before a type's own counts: the stated prior at the severity learned. */
  readonly priorOf: (typeId: TypeId | null, outside: Grade | null) => readonly number[]
  /** Of a type; none of those without one. */
  readonly repairsOf: (typeId: TypeId | null) => readonly FinishedRepair[]
}

function learnHidden(table: FinishedTable): LearnedHidden {
  const all = rowsWhere(table, () => true)
  const types = new Map(rowsByType(table, all).map(({ typeId, rows }) => [typeId, rows]))
  const rowsOf = (typeId: TypeId | null): Int32Array =>
    (typeId === null ? undefined : types.get(typeId)) ?? new Int32Array()
  const foundOf = remembered((typeId: TypeId | null) => worstFound(table, rowsOf(typeId)))
  const ofWorkshop = learnSeverity(worstFound(table, all), 0)
  const severityOf = remembered((typeId: TypeId) => learnSeverity(foundOf(typeId), ofWorkshop))
  return {
    foundOf,
    priorOf: (typeId, outside) => tilted(outside, typeId === null ? ofWorkshop : severityOf(typeId)),
    repairsOf: (typeId) => [...rowsOf(typeId)].flatMap((row) => table.repairs[row] ?? []),
  }
}

function worstFound({ columns: { outside, worstHidden } }: FinishedTable, rows: Int32Array): FoundCounts {
  const counts = OUTSIDES.map(() => GRADES.map(() => 0))
  for (const row of rows) {
    const alike = counts[(outside[row] as number) - UNGRADED] as number[]
    const step = worstHidden[row] as number
    if (step !== UNGRADED) alike[step] = (alike[step] as number) + 1
  }
  return new Map(OUTSIDES.map((grade, at) => [grade, counts[at] as number[]]))
}

/** By place in a column of grades, from UNGRADED on. */
const OUTSIDES: readonly (Grade | null)[] = [null, ...GRADES]

/** The geometric mean of what grades take that are likely by these shares. */
const meanMultiple = (multiples: GradeMultiples, shares: readonly number[]): number =>
  Math.exp(
    GRADES.reduce((sum, grade, at) => sum + (shares[at] ?? 0) * Math.log(multiples[grade].multiple), 0),
  )

/** With what the gates after assessed were to be expected to take by what showed outside, by row. */
interface SurprisingRepairs extends ToldRepairs {
  readonly expected: Float64Array
}

function toldRepairs(
  table: FinishedTable,
  multiples: GradeMultiples,
  { foundOf, priorOf }: LearnedHidden,
): SurprisingRepairs {
  const { taken, car, outside, worstHidden, hidesNothing } = table.columns
  // Hours taken from finished repairs say nothing of how far people's estimates are off.
  const estimated = rowsWhere(table, (row) => taken[row] === 0)
  const types = rowsByType(table, estimated)
  const expected = new Float64Array(table.repairs.length)
  const ofRows = new Float64Array(table.repairs.length)
  for (const { typeId, rows } of types) {
    const byOutside = OUTSIDES.map((grade) =>
      meanMultiple(multiples, gradeShares(grade, foundOf(typeId), priorOf(typeId, grade))),
    )
    for (const row of rows) {
      const worst = GRADES[worstHidden[row] as number]
      const usual = byOutside[(outside[row] as number) - UNGRADED] as number
      expected[row] = hidesNothing[row] === 1 ? 1 : usual
      ofRows[row] = worst === undefined ? (expected[row] as number) : multiples[worst].multiple
    }
  }
  return { table, types, carOf: groupedBy(car, estimated).groupOf, multiples: ofRows, expected }
}

/** How far repairs ended from what was to be expected before they were opened. */
const surprises = ({ table, types, carOf, expected }: SurprisingRepairs): readonly TypeLogs[] =>
  types.map(({ rows }) => ({
    logs: Array.from(rows, (row) => {
      const by = { multiple: expected[row] as number, pricedAgain: false }
      return Math.log(sumAt(table, row, ALL_SPENT) / expectedAt(table, row, ALL_EXPECTED, by))
    }),
    cars: Array.from(rows, (row) => carOf[row] as number),
  }))

const ALL_SPENT = placesOf('actual', GATES)
const ALL_EXPECTED = expectedPlaces(GATES)

const layersFound = (repairs: readonly FinishedRepair[], name: string): readonly FoundLayer[] =>
  repairs.flatMap(({ outside, hidden }) =>
    hidden.flatMap(({ name: own, grade }) =>
      own === name && grade !== null ? [{ outside, inside: grade }] : [],
    ),
  )

function remembered<Of, T>(workOut: (of: Of) => T, keyOf: (of: Of) => unknown = (of) => of): (of: Of) => T {
  const known = new Map<unknown, T>()
  return (of) => {
    const key = keyOf(of)
    const last = known.get(key)
    if (last !== undefined) return last
    const value = workOut(of)
    known.set(key, value)
    return value
  }
}
