import { joinWords, plural } from '../text/words.ts'
import { countMarks, type MarkCounts, type PhotoMarks } from './photo-marks.ts'

/** 'marked: 1 arrow and 2 circles', for those who do not see them; empty without marks. */
export const marksWords = (marks: PhotoMarks): string =>
  marks.length === 0 ? '' : countedMarks(countMarks(marks))

/** The same of at least one mark. */
export function countedMarks({ arrows, circles, lines }: MarkCounts): string {
  const parts = [
    ...(arrows > 0 ? [plural('arrow', arrows)] : []),
    ...(circles > 0 ? [plural('circle', circles)] : []),
    ...(lines > 0 ? [plural('line', lines)] : []),
  ]
  return `marked: ${joinWords(parts)}`
}
