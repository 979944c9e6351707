import { GRADES, type Grade } from '../facts/shapes.ts'
import { type Proportion, proportionOf } from '../statistics/proportion.ts'

/**
 * How often layers were found in finished repairs, by the grade seen outside before these were opened, null where nobody had
 * said: of each grade inside, best to worst.
 */
export type FoundCounts = ReadonlyMap<Grade | null, readonly number[]>

/** What was seen from outside, and what a layer turned out to be. */
export interface FoundLayer {
  readonly outside: Grade | null
  readonly inside: Grade
}

export function countFound(found: readonly FoundLayer[]): FoundCounts {
  const counts = new Map<Grade | null, number[]>()
  for (const { outside, inside } of found) {
    const alike = counts.get(outside) ?? GRADES.map(() => 0)
    counts.set(outside, alike)
    const step = GRADES.indexOf(inside)
    alike[step] = (alike[step] as number) + 1
  }
  return counts
}

export interface HiddenGrades {
  /** Null when nobody has said: then all finished repairs are counted, whatever they looked like. */
  readonly outside: Grade | null
  /** Finished repairs with this grade outside. */
  readonly seen: number
  /** Best to worst; the means add up to 1. */
  readonly grades: readonly HiddenGrade[]
}

export interface HiddenGrade {
  readonly grade: Grade
  /** Of those seen. */
  readonly found: number
  readonly likelihood: Proportion
}

/** What the prior weighs, in finished repairs. */
export const PRIOR_REPAIRS = 4

/**
 * How a hidden layer turns out by the grade seen outside, sound to gone: worse inside than out. Common practice, no source;
 * worth PRIOR_REPAIRS repairs until the workshop's own say better. Rows add up to 1.
 */
export const HIDDEN_GRADE_PRIOR: Readonly<Record<Grade, Readonly<Record<Grade, number>>>> = {
  sound: { sound: 0.5, surface: 0.28, pitted: 0.14, holed: 0.06, gone: 0.02 },
  surface: { sound: 0.1, surface: 0.38, pitted: 0.32, holed: 0.16, gone: 0.04 },
  pitted: { sound: 0.03, surface: 0.1, pitted: 0.37, holed: 0.4, gone: 0.1 },
  holed: { sound: 0.02, surface: 0.04, pitted: 0.14, holed: 0.5, gone: 0.3 },
  gone: { sound: 0.02, surface: 0.03, pitted: 0.07, holed: 0.28, gone: 0.6 },
}

/** How repairs look from outside that are estimated at all. Common practice, no source; for those that nobody has graded. */
export const OUTSIDE_PRIOR: Readonly<Record<Grade, number>> = {
  sound: 0.1,
  surface: 0.3,
  pitted: 0.3,
  holed: 0.2,
  gone: 0.1,
}

/** The prior's share of a hidden grade, for a grade outside or for any. */
export function priorShare(outside: Grade | null, grade: Grade): number {
  if (outside !== null) return HIDDEN_GRADE_PRIOR[outside][grade]
  return GRADES.reduce((sum, each) => sum + OUTSIDE_PRIOR[each] * HIDDEN_GRADE_PRIOR[each][grade], 0)
}

/**
 * How likely each grade of a hidden layer is, with 95 % credible intervals: the workshop's own counts on top of the prior
 * (Dirichlet and multinomial; each grade by itself is beta distributed; Gelman et al., Bayesian Data Analysis, section 3.4).
 *
 * @param outside null for one that nobody has graded: then all are counted
 * @param found layers of the same type and place; those with other grades outside are not counted
 * @param prior shares of the grades, best to worst, that stand for PRIOR_REPAIRS repairs
 */
export function hiddenGrades(
  outside: Grade | null,
  found: FoundCounts,
  prior: readonly number[] = priorShares(outside),
): HiddenGrades {
  const counts = alikeOf(outside, found)
  const seen = totalOf(counts)
  return {
    outside,
    seen,
    grades: GRADES.map((grade, step) => {
      const count = counts[step] as number
      const alpha = PRIOR_REPAIRS * (prior[step] ?? 0)
      const share = { alpha, beta: PRIOR_REPAIRS - alpha }
      return { grade, found: count, likelihood: proportionOf(count, seen, share) }
    }),
  }
}

/** The means of {@link hiddenGrades} alone, best to worst. */
export function gradeShares(
  outside: Grade | null,
  found: FoundCounts,
  prior: readonly number[],
): readonly number[] {
  const counts = alikeOf(outside, found)
  const seen = totalOf(counts)
  return counts.map((count, step) => (count + PRIOR_REPAIRS * (prior[step] ?? 0)) / (seen + PRIOR_REPAIRS))
}

const priorShares = (outside: Grade | null): readonly number[] =>
  GRADES.map((grade) => priorShare(outside, grade))

/** By grade, best to worst. */
const alikeOf = (outside: Grade | null, found: FoundCounts): readonly number[] =>
  outside === null ? sumSteps([...found.values()]) : (found.get(outside) ?? NONE)

const sumSteps = (all: readonly (readonly number[])[]): readonly number[] =>
  GRADES.map((_, step) => all.reduce((sum, counts) => sum + (counts[step] ?? 0), 0))

const totalOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0)

const NONE: readonly number[] = GRADES.map(() => 0)

/** How a workshop speaks of what is graded and from where. */
export interface LayerWords {
  /** In the plural: "spring hangers". */
  readonly what: string
  /** "from below" */
  readonly seen: string
  /** "above" */
  readonly hidden: string
}

/**
 * The counts that a grade's likelihood rests on: "Of 14 spring hangers graded pitted from below, 9 were holed above." With
 * fewer than the prior weighs it says that the prior counts more.
 */
export function hiddenGradeWords(
  { outside, seen, grades }: HiddenGrades,
  grade: Grade,
  words: LayerWords,
): string {
  const count = grades.find((each) => each.grade === grade)?.found ?? 0
  const graded = outside === null ? '' : ` graded ${outside} ${words.seen}`
  if (seen === 0) return `No ${words.what}${graded} are finished yet; ${PRIOR_WORDS}.`
  const counts = `Of ${seen} ${words.what}${graded}, ${count === 0 ? 'none' : count} ${count === 1 ? 'was' : 'were'} ${grade} ${words.hidden}`
  return seen < PRIOR_REPAIRS ? `${counts}; with so few, ${PRIOR_WORDS}.` : `${counts}.`
}

const PRIOR_WORDS = 'the usual belief "worse inside than out" counts most'
