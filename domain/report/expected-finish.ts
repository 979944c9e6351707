import { daysBetween } from '../time/local-date.ts'
import { datesOf, type FinishDates, finishDates } from './finish-dates.ts'
import { movedCauses } from './moved-causes.ts'
import { openQuestions } from './needs.ts'
import { dateWords, type Telling } from './telling.ts'

/** When the car is expected to be done, as the manager wants it said, and what has changed since last week and why. */
export function finishTexts(telling: Telling, today: string): readonly string[] {
  const { choices, visit, say } = telling
  if (choices.dates === 'none') return []
  if (visit.status === 'paused') return [say.ready.whilePaused]
  const dates = finishDates(telling, today)
  const texts =
    dates === null ? noDateTexts(telling) : [rangeText(telling, dates), changeText(telling, dates)]
  return texts.filter((text) => text !== '')
}

function rangeText(telling: Telling, { early, late }: FinishDates): string {
  const day = dateWords(telling, late)
  const { ready } = telling.say
  const isOneDay = telling.choices.dates === 'later date' || early >= late
  const text = isOneDay ? ready.by(day) : ready.between(dateWords(telling, early), day)
  return [text, ...answersTexts(telling)].join(' ')
}

/** Work that waits for an answer is planned as if it came in time. */
function answersTexts(telling: Telling): readonly string[] {
  const { ready } = telling.say
  const open = openQuestions(telling)
  const [first] = open
  if (first === undefined) return []
  if (open.length > 1) return [ready.countsOnAnswers]
  const { title, expected } = first
  return [ready.countsOnAnswer(title, expected === null ? null : dateWords(telling, expected))]
}

function changeText(telling: Telling, { late }: FinishDates): string {
  const { expected, context, say } = telling
  const before = expected?.before ?? null
  if (before === null) return ''
  const was = datesOf(before, context.workshop)
  if (was === null) return say.ready.noDateBefore
  const days = daysBetween(was.late, late)
  if (days === 0) return say.ready.unchanged
  return `${say.ready.moved(dateWords(telling, was.late), days)} ${causesText(telling, days > 0 ? 'later' : 'sooner')}`
}

function causesText(telling: Telling, moved: 'later' | 'sooner' | 'either'): string {
  const causes = movedCauses(telling, moved)
  const { ready } = telling.say
  return causes.length === 0 ? ready.noSingleCause : ready.causes(causes)
}

/** Said only where a plan shows that no date can be given. */
function noDateTexts(telling: Telling): readonly string[] {
  const { expected, context, say } = telling
  const finish = expected?.finish ?? null
  if (finish === null || finish.range !== null) return []
  const was = datesOf(expected?.before ?? null, context.workshop)
  return [
    say.ready.noDate(finish.faults),
    was === null ? '' : say.ready.expectedBefore(dateWords(telling, was.late)),
    was === null ? '' : causesText(telling, 'either'),
  ]
}
