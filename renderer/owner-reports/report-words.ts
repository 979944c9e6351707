import { LANGUAGE_CODES } from '../../domain/language/language-codes.ts'
import { languages } from '../../domain/language/languages.ts'
import type { DatesShown } from '../../domain/report/report-choices.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { BatchAnswer } from './use-batch.ts'

/** '2026-W48' as 'week 48'. */
export const isoWeekNumber = (week: string): string => `week ${Number(week.slice(week.indexOf('W') + 1))}`

/** How a report says when the car is expected to be done. */
const DATES_WORDS: Readonly<Record<DatesShown, string>> = {
  range: 'A range',
  'later date': 'The later date',
  none: 'No date',
}

export const datesChoices = Object.entries(DATES_WORDS).map(([value, words]) => ({
  value: value as DatesShown,
  words,
}))

/** Each language under its own name. */
export const languageChoices = LANGUAGE_CODES.map((value) => ({ value, words: languages[value].name }))

/** What stands in the way of one report; further ones are in vain without a session or a host. */
export function refusalProblem(refusal: Refusal | null): BatchAnswer {
  if (refusal === null) return { isDone: true, problems: [], isInVain: false }
  const { code, message, next } = refusal
  return {
    isDone: false,
    problems: [`${message} ${next}`],
    isInVain: code === 'not-allowed' || code === 'not-now',
  }
}
