import { type Grade, GRADES } from '../facts/shapes.ts'
import { type Gate, GATES } from '../gates.ts'
import type { FinishedRepair } from './finished-repair.ts'

/** What the gates after assessed take for their first estimate when this is the worst that was hidden. */
export interface GradeMultiple {
  /** A multiple of the first estimate. */
  readonly multiple: number
  readonly prior: number
  /** How much wider hours lie around it for not knowing it better: 1 where it is known for certain. */
  readonly unsure: number
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

/** What a grade's prior weighs, and the belief that a type's estimates are right in the mean, in finished repairs. */
const PRIOR_REPAIRS = 2
const TYPE_REPAIRS = 2

/**
 * The multiples learned from the workshop's own repairs, shrunk towards the prior. A type that runs over as a whole counts
 * for the type and not for the grades that it happened to have: both are fitted together (best linear unbiased prediction;
 * Henderson 1975), by sweeps until they stand still. A multiple's own variance is that of a repair over the repairs it rests
 * on, the prior's among them.
 */
export function gradeMultiples(finished: readonly FinishedRepair[]): GradeMultiples {
  const seen = finished.flatMap((repair) => {
    const log = logBehind(repair)
    return repair.worstHidden === null || log === null
      ? []
      : [{ type: repair.typeId ?? 'no type', grade: repair.worstHidden, log }]
  })
  const byGrade = Map.groupBy(seen, ({ grade }) => grade)
  const byType = Map.groupBy(seen, ({ type }) => type)
  const typeLogs = new Map([...byType.keys()].map((type) => [type, 0]))
  const gradeLogs = new Map(GRADES.map((grade) => [grade, Math.log(MULTIPLE_PRIOR[grade])]))
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    for (const [grade, own] of byGrade) {
      const apart = own.reduce((sum, { type, log }) => sum + log - (typeLogs.get(type) ?? 0), 0)
      const prior = PRIOR_REPAIRS * Math.log(MULTIPLE_PRIOR[grade])
      gradeLogs.set(grade, (prior + apart) / (PRIOR_REPAIRS + own.length))
    }
    for (const [type, own] of byType) {
      const apart = own.reduce((sum, { grade, log }) => sum + log - (gradeLogs.get(grade) ?? 0), 0)
      typeLogs.set(type, apart / (TYPE_REPAIRS + own.length))
    }
  }
  return Object.fromEntries(
    GRADES.map((grade) => [
      grade,
      {
        multiple: Math.exp(gradeLogs.get(grade) ?? 0),
        prior: MULTIPLE_PRIOR[grade],
        unsure: unsureOf(byGrade.get(grade)?.length ?? 0),
        repairs: byGrade.get(grade)?.length ?? 0,
      },
    ]),
  ) as unknown as GradeMultiples
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
