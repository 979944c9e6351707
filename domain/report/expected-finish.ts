import type { PlanFault } from '../plan/plan.ts'
import { daysBetween } from '../time/local-date.ts'
import { datesOf, type FinishDates, finishDates } from './finish-dates.ts'
import { movedCauses } from './moved-causes.ts'
import { openQuestions } from './needs.ts'
import { clause, counted } from './sentences.ts'
import { dateWords, type Telling } from './telling.ts'

/** When the car is expected to be done, as the manager wants it said, and what has changed since last week and why. */
export function finishTexts(telling: Telling, today: string): readonly string[] {
  const { choices, visit } = telling
  if (choices.dates === 'none') return []
  if (visit.status === 'paused') return ['While the work is paused we can give no date for its end.']
  const dates = finishDates(telling, today)
  const texts =
    dates === null ? noDateTexts(telling) : [rangeText(telling, dates), changeText(telling, dates)]
  return texts.filter((text) => text !== '')
}

function rangeText(telling: Telling, { early, late }: FinishDates): string {
  const day = dateWords(telling, late)
  const answers = answersText(telling)
  if (telling.choices.dates === 'later date' || early >= late)
    return `We expect to be done by ${day}.${answers}`
  return `We expect to be done by ${day}, and perhaps as early as ${dateWords(telling, early)}: the later date holds in four cases of five, the earlier one in half of them.${answers}`
}

/** Work that waits for an answer is planned as if it came in time. */
function answersText(telling: Telling): string {
  const open = openQuestions(telling)
  const [first] = open
  if (first === undefined) return ''
  if (open.length > 1) return ` That counts on your answers coming soon.`
  const by = first.expected === null ? 'coming soon' : `by ${dateWords(telling, first.expected)}`
  return ` That counts on your answer on ‘${clause(first.title)}’ ${by}.`
}

function changeText(telling: Telling, { late }: FinishDates): string {
  const { expected, context } = telling
  const before = expected?.before ?? null
  if (before === null) return ''
  const was = datesOf(before, context.workshop)
  if (was === null) return 'At the end of last week we could give no date yet.'
  const days = daysBetween(was.late, late)
  if (days === 0) return 'That has not changed since the end of last week.'
  const moved = `At the end of last week we expected to be done by ${dateWords(telling, was.late)}: it is now ${daysWords(Math.abs(days))} ${days > 0 ? 'later' : 'sooner'}.`
  return `${moved} ${causesText(telling, days > 0 ? 'later' : 'sooner')}`
}

/** Whole weeks as weeks. */
const daysWords = (days: number): string =>
  days % 7 === 0 ? counted('week', days / 7) : counted('day', days)

function causesText(telling: Telling, moved: 'later' | 'sooner' | 'either'): string {
  const causes = movedCauses(telling, moved)
  return causes.length === 0
    ? 'No single thing moved it: it follows from how the work in our workshop went.'
    : `What came in between: ${causes.join('; ')}.`
}

/** Said only where a plan shows that no date can be given. */
function noDateTexts(telling: Telling): readonly string[] {
  const { expected, context } = telling
  const finish = expected?.finish ?? null
  if (finish === null || finish.range !== null) return []
  const reasons = [...new Set(finish.faults.map((code) => FAULT_REASONS[code]))]
  const was = datesOf(expected?.before ?? null, context.workshop)
  return [
    `We can give no date yet: ${reasons.length === 0 ? 'part of the work cannot be planned' : reasons.join('; ')}.`,
    was === null ? '' : `At the end of last week we expected to be done by ${dateWords(telling, was.late)}.`,
    was === null ? '' : causesText(telling, 'either'),
  ]
}

const FAULT_REASONS: Readonly<Record<PlanFault['code'], string>> = {
  'no skill': 'nobody here can do part of the work at present',
  'no bay': 'a place for part of it is missing',
  'no fixture': 'a fixture for part of it is missing',
  'not braced': 'the shell must be braced before it can be moved',
  'not authorised': 'part of the work is stopped until it is agreed how to go on',
  'closed over': 'part of the work lies under metal that is closed and must be opened again',
  circle: 'part of the work cannot be planned',
  'no hours': 'part of the work cannot be planned',
  'bad hours': 'part of the work cannot be planned',
  'pin in the past': 'part of the work cannot be planned',
  'pins clash': 'part of the work cannot be planned',
  'too long': 'part of the work cannot be planned',
}
