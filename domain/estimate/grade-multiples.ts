import { type Grade, GRADES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import { CAR_CORRELATION_PRIOR } from './car-correlation.ts'
import {
  type FinishedTable,
  type Grouped,
  groupedBy,
  placesOf,
  rowsWhere,
  sumAt,
  UNGRADED,
} from './finished-table.ts'
import { isBehind } from './work-point.ts'

/** What the gates after assessed take for their first estimate when this is the worst that was hidden. */
export interface GradeMultiple {
  /** A multiple of the first estimate. */
  readonly multiple: number
  readonly prior: number
  /** How much wider hours lie around it for not knowing it better: 1 where it is known for certain. */
  readonly unsure: number
  /** What it may be wrong by, in variances of a repair. */
  readonly ofGrade: number
  /** Finished repairs of all types that it was learned from. */
  readonly repairs: number
}

export type GradeMultiples = Readonly<Record<Grade, GradeMultiple>>

/**
 * Hours of the gates after assessed as a multiple of what was estimated from outside, by the worst hidden grade. Common
 * practice, no source: who prices from outside prices something between pitted and surface. Worth PRIOR_REPAIRS repairs.
 */
export const MULTIPLE_PRIOR: Readonly<Record<Grade, number>> = {
  sound: 0.8,
  surface: 0.9,
  pitted: 1.05,
  holed: 1.3,
  gone: 1.7,
}

/** What a grade's prior weighs, and the beliefs that a type's and a car's estimates are right in the mean, in repairs. */
const PRIOR_REPAIRS = 2
const TYPE_REPAIRS = 2
/** (1 - r) / r for the correlation r of a car's repairs. */
const CAR_REPAIRS = (1 - CAR_CORRELATION_PRIOR) / CAR_CORRELATION_PRIOR

/**
 * The multiples learned from the workshop's own repairs, shrunk towards the prior. A type or a car that runs over as a whole
 * counts for itself and not for the grades that it happened to have: all three are fitted together (best linear unbiased
 * prediction; Henderson 1975), by sweeps until they stand still. A multiple's own variance is that of a repair over the
 * repairs it rests on, the prior's among them.
 */
export function gradeMultiples(table: FinishedTable): GradeMultiples {
  const { worstHidden, type, car } = table.columns
  const rows = rowsWhere(table, (row) => tellsOfGrades(table, row))
  const logs = new Float64Array(table.repairs.length)
  for (const row of rows)
    logs[row] = Math.log(sumAt(table, row, ACTUAL_BEHIND) / sumAt(table, row, BEFORE_BEHIND))
  const byGrade = { groups: GRADES.length, groupOf: Int32Array.from(worstHidden) }
  const priors = GRADES.map((grade) => Math.log(MULTIPLE_PRIOR[grade]))
  const grades = createEffect(byGrade, rows, logs, PRIOR_REPAIRS, priors)
  const types = createEffect(groupedBy(type, rows), rows, logs, TYPE_REPAIRS)
  const cars = createEffect(groupedBy(car, rows), rows, logs, CAR_REPAIRS)
  const [typesOfGrades, gradesOfTypes] = sharedRows(grades, types, rows)
  const [carsOfGrades, gradesOfCars] = sharedRows(grades, cars, rows)
  const [carsOfTypes, typesOfCars] = sharedRows(types, cars, rows)
  const fits = [
    { effect: grades, shared: [typesOfGrades, carsOfGrades] },
    { effect: types, shared: [gradesOfTypes, carsOfTypes] },
    { effect: cars, shared: [gradesOfCars, typesOfCars] },
  ]
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) for (const { effect, shared } of fits) fit(effect, shared)
  return Object.fromEntries(
    GRADES.map((grade, step): [Grade, GradeMultiple] => {
      const repairs = grades.rows[step] as number
      return [
        grade,
        {
          multiple: Math.exp(grades.adds[step] as number),
          prior: MULTIPLE_PRIOR[grade],
          unsure: unsureOf(repairs),
          ofGrade: 1 / (PRIOR_REPAIRS + repairs),
          repairs,
        },
      ]
    }),
  ) as unknown as GradeMultiples
}

/** Hours taken from finished repairs say nothing of how far people's estimates are off. */
const tellsOfGrades = (table: FinishedTable, row: number): boolean =>
  table.columns.taken[row] === 0 &&
  table.columns.worstHidden[row] !== UNGRADED &&
  sumAt(table, row, BEFORE_BEHIND) > 0 &&
  sumAt(table, row, ACTUAL_BEHIND) > 0

const BEFORE_BEHIND = placesOf('before', GATES.filter(isBehind))
const ACTUAL_BEHIND = placesOf('actual', GATES.filter(isBehind))

/** What each grade, type or car adds to the logarithms of its rows, by group. */
interface Effect {
  readonly groupOf: Int32Array
  readonly rows: Float64Array
  /** Of the logarithms of its rows. */
  readonly sums: Float64Array
  readonly priors: Float64Array
  /** What a prior counts, in rows. */
  readonly weight: number
  /** Moved by each fit. */
  readonly adds: Float64Array
}

function createEffect(
  { groups, groupOf }: Grouped,
  rows: Int32Array,
  logs: Float64Array,
  weight: number,
  priors: readonly number[] = Array.from({ length: groups }, () => 0),
): Effect {
  const [counts, sums] = [new Float64Array(groups), new Float64Array(groups)]
  for (const row of rows) {
    const group = groupOf[row] as number
    counts[group] = (counts[group] as number) + 1
    sums[group] = (sums[group] as number) + (logs[row] as number)
  }
  return {
    groupOf,
    rows: counts,
    sums,
    priors: Float64Array.from(priors),
    weight,
    adds: Float64Array.from(priors),
  }
}

/** How many rows a group of one effect has in common with one of another, where it has any. */
interface SharedRows {
  readonly groups: Int32Array
  readonly otherGroups: Int32Array
  readonly rows: Int32Array
  /** What the other effect adds by now. */
  readonly otherAdds: Float64Array
}

/** Those of the first with the second, and of the second with the first. */
function sharedRows(one: Effect, other: Effect, rows: Int32Array): readonly [SharedRows, SharedRows] {
  const width = other.rows.length
  const counts = new Int32Array(one.rows.length * width)
  for (const row of rows) {
    const cell = (one.groupOf[row] as number) * width + (other.groupOf[row] as number)
    counts[cell] = (counts[cell] as number) + 1
  }
  const cells = counts.map((_, cell) => cell).filter((cell) => counts[cell] !== 0)
  const groups = cells.map((cell) => Math.floor(cell / width))
  const otherGroups = cells.map((cell) => cell % width)
  const common = cells.map((cell) => counts[cell] as number)
  return [
    { groups, otherGroups, rows: common, otherAdds: other.adds },
    { groups: otherGroups, otherGroups: groups, rows: common, otherAdds: one.adds },
  ]
}

/** To what the other effects leave of the rows. By rows in common and not row by row, which takes five times as long. */
function fit({ rows, sums, priors, weight, adds }: Effect, shared: readonly SharedRows[]): void {
  const left = sums.slice()
  for (const { groups, otherGroups, rows: common, otherAdds } of shared)
    for (let at = 0; at < groups.length; at += 1) {
      const group = groups[at] as number
      const taken = (common[at] as number) * (otherAdds[otherGroups[at] as number] as number)
      left[group] = (left[group] as number) - taken
    }
  for (let group = 0; group < adds.length; group += 1)
    adds[group] =
      (weight * (priors[group] as number) + (left[group] as number)) / (weight + (rows[group] as number))
}

/**
 * The next repair lies around its multiple by its own variance and by that of the multiple; the repairs that it was learned
 * from lie closer around it than they should, because it was fitted to them (leverage; Cook & Weisberg 1982).
 */
function unsureOf(repairs: number): number {
  const share = 1 / (PRIOR_REPAIRS + repairs)
  return Math.sqrt((1 + share) / (1 - repairs * share ** 2))
}

/** Each halves what is left to move where grades and types are mixed; the rest is far below a percent. */
const SWEEPS = 30
