import { GRADES, type Grade } from '../facts/shapes.ts'
import { type Proportion, proportionOf } from '../statistics/proportion.ts'

/** A layer of a finished repair: what was seen from outside before it was opened, and what the layer turned out to be. */
export interface FoundLayer {
  readonly outside: Grade
  readonly inside: Grade
}

export interface HiddenGrades {
  readonly outside: Grade
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

/**
 * How likely each grade of a hidden layer is, with 95 % credible intervals: the workshop's own counts on top of the prior
 * (Dirichlet and multinomial; each grade by itself is beta distributed; Gelman et al., Bayesian Data Analysis, section 3.4).
 *
 * @param found layers of the same type and place from finished repairs, in any order; other outside grades are not counted
 */
export function hiddenGrades(outside: Grade, found: readonly FoundLayer[]): HiddenGrades {
  const alike = found.filter((layer) => layer.outside === outside)
  return {
    outside,
    seen: alike.length,
    grades: GRADES.map((grade) => {
      const count = alike.filter(({ inside }) => inside === grade).length
      const alpha = PRIOR_REPAIRS * HIDDEN_GRADE_PRIOR[outside][grade]
      const prior = { alpha, beta: PRIOR_REPAIRS - alpha }
      return { grade, found: count, likelihood: proportionOf(count, alike.length, prior) }
    }),
  }
}

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
  if (seen === 0) return `No ${words.what} graded ${outside} ${words.seen} are finished yet; ${PRIOR_WORDS}.`
  const counts = `Of ${seen} ${words.what} graded ${outside} ${words.seen}, ${count === 0 ? 'none' : count} ${count === 1 ? 'was' : 'were'} ${grade} ${words.hidden}`
  return seen < PRIOR_REPAIRS ? `${counts}; with so few, ${PRIOR_WORDS}.` : `${counts}.`
}

const PRIOR_WORDS = 'the usual belief "worse inside than out" counts most'
