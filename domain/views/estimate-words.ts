import type { Grade } from '../facts/shapes.ts'
import { hiddenGradeWords, type HiddenGrades } from '../estimate/hidden-grades.ts'
import { rangeWords } from '../text/likely-words.ts'
import { joinWords, plural } from '../text/words.ts'
import type { EstimateRepairView, EstimateTaskView } from './estimate-shapes.ts'
import { inSentence } from './work-words.ts'

/** What so many repairs of a type are called: 'spring hanger boxes', 'A-post feet', 'such repairs' without a type. */
export function kindWords(type: string | null, count: number): string {
  if (type === null) return count === 1 ? 'such repair' : 'such repairs'
  const name = inSentence(type.trim())
  if (/[,()]|\bof\b/.test(name)) return `${count === 1 ? 'repair' : 'repairs'} ‘${name}’`
  if (count === 1) return name
  return name.replace(/\S+$/, pluralOf)
}

function pluralOf(word: string): string {
  if (word === 'foot') return 'feet'
  if (/(?:[sx]|ch|sh)$/.test(word)) return /(?:ss|us|x|ch|sh)$/.test(word) ? `${word}es` : word
  return /[^aeiou]y$/.test(word) ? word.replace(/y$/, 'ies') : `${word}s`
}

/**
 * The counts behind the likeliest grade of a hidden layer: 'Of 14 sills graded pitted from outside, 9 were holed inside.'
 *
 * @param layer null for the only one
 */
export function layerCountWords(grades: HiddenGrades, type: string | null, layer: string | null): string {
  return hiddenGradeWords(grades, toldGrade(grades), {
    what: kindWords(type, grades.seen),
    seen: 'from outside',
    hidden: layer === null ? 'inside' : `at the ${inSentence(layer)}`,
  })
}

/** The one found most, the worse of two; the likeliest where none was found. */
function toldGrade({ seen, grades }: HiddenGrades): Grade {
  const weight = ({ found, likelihood }: HiddenGrades['grades'][number]): number =>
    seen === 0 ? likelihood.mean : found
  return grades.reduce((best, each) => (weight(each) >= weight(best) ? each : best)).grade
}

/** What is unsure about a repair, and how far: 'not seen yet: inner sill and stiffener; 41 to 52 h'. */
export function repairMoverWords(repair: EstimateRepairView): string {
  const range = repair.band === null ? '' : `; ${rangeWords(repair.band)}`
  return `${unsureWords(repair)}${range}`
}

function unsureWords({ state, layers, outside }: EstimateRepairView): string {
  switch (state) {
    case 'before opening': {
      const names = layers.map(({ name }) => inSentence(name))
      const unseen =
        names.length === 0
          ? 'it is not opened yet'
          : `not seen yet: ${names.length > MOST_NAMED ? plural('hidden layer', names.length) : joinWords(names)}`
      return outside === null ? `${unseen}; nobody has graded it from outside` : unseen
    }
    case 'opened':
      return 'it is open but not graded yet'
    case 'assessed':
      return 'its metal is known; how long the work takes is not'
    case 'in work':
      return 'it is in work'
    case 'finished':
    case 'closed as found':
      return 'it is finished'
  }
}

const MOST_NAMED = 3

/** 'it takes 80 to 120 h', by its own three points. */
export const taskMoverWords = ({ points }: EstimateTaskView): string =>
  `it takes ${rangeWords({ p50: points.shortest, p80: points.longest })} by its own figures`
