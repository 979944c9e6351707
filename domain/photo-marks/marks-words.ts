import { joinWords, plural } from '../text/words.ts'
import { countMarks, type PhotoMarks } from './photo-marks.ts'

/** 'marked: 1 arrow and 2 circles', for those who do not see them; empty without marks. */
export function marksWords(marks: PhotoMarks): string {
  if (marks.length === 0) return ''
  const { arrows, circles, lines } = countMarks(marks)
  const parts = [
    ...(arrows > 0 ? [plural('arrow', arrows)] : []),
    ...(circles > 0 ? [plural('circle', circles)] : []),
    ...(lines > 0 ? [plural('line', lines)] : []),
  ]
  return `marked: ${joinWords(parts)}`
}
