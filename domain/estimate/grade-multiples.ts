import { type Grade, GRADES } from '../facts/shapes.ts'
import { type Gate, GATES } from '../gates.ts'
import { CAR_CORRELATION_PRIOR } from './car-correlation.ts'
import type { FinishedRepair } from './finished-repair.ts'

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
export function gradeMultiples(finished: readonly FinishedRepair[]): GradeMultiples {
  const seen = finished.flatMap((repair) => {
    const log = logBehind(repair)
    return repair.worstHidden === null || log === null ? [] : [{ ...repair, grade: repair.worstHidden, log }]
  })
  const grades = createEffect(
    seen.map(({ grade }) => grade),
    PRIOR_REPAIRS,
    (grade) => Math.log(MULTIPLE_PRIOR[grade]),
  )
  const types = createEffect(
    seen.map(({ typeId }) => typeId),
    TYPE_REPAIRS,
    () => 0,
  )
  const cars = createEffect(
    seen.map(({ visitId }) => visitId),
    CAR_REPAIRS,
    () => 0,
  )
  const left = Float64Array.from(seen, ({ grade, log }) => log - (grades.get(grade)?.log ?? 0))
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    fit(grades, left)
    fit(types, left)
    fit(cars, left)
  }
  return Object.fromEntries(
    GRADES.map((grade): [Grade, GradeMultiple] => {
      const effect = grades.get(grade)
      const repairs = effect?.rows.length ?? 0
      const prior = MULTIPLE_PRIOR[grade]
      return [
        grade,
        {
          multiple: effect === undefined ? prior : Math.exp(effect.log),
          prior,
          unsure: unsureOf(repairs),
          ofGrade: 1 / (PRIOR_REPAIRS + repairs),
          repairs,
        },
      ]
    }),
  ) as unknown as GradeMultiples
}

/** What a grade, a type or a car adds to the logarithm of its rows: `prior` is believed and counts as `weight` rows. */
interface Level {
  readonly rows: readonly number[]
  readonly prior: number
  readonly weight: number
  log: number
}

function createEffect<K>(
  keys: readonly K[],
  weight: number,
  priorOf: (key: K) => number,
): ReadonlyMap<K, Level> {
  const byKey = Map.groupBy(keys.keys(), (row) => keys[row] as K)
  return new Map(
    [...byKey].map(([key, rows]) => [key, { rows, prior: priorOf(key), weight, log: priorOf(key) }]),
  )
}

/** @param left what the effects leave of each row; changed in place */
function fit(effect: ReadonlyMap<unknown, Level>, left: Float64Array): void {
  for (const level of effect.values()) {
    const { rows, prior, weight, log } = level
    const sum = rows.reduce((total, row) => total + (left[row] as number), rows.length * log)
    level.log = (weight * prior + sum) / (weight + rows.length)
    for (const row of rows) left[row] = (left[row] as number) - (level.log - log)
  }
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

/** Whether what a repair hides makes this gate longer: opening and assessing it is what it looks like from outside. */
export const isBehind = (gate: Gate): boolean => gate !== 'opened' && gate !== 'assessed'

/** Null where the gates after assessed had no estimate or no hours. */
function logBehind({ gates }: FinishedRepair): number | null {
  const behind = GATES.filter(isBehind).map((gate) => gates[gate])
  const estimated = behind.reduce((sum, { before }) => sum + before, 0)
  const actual = behind.reduce((sum, gate) => sum + gate.actual, 0)
  return estimated > 0 && actual > 0 ? Math.log(actual / estimated) : null
}
