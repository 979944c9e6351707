import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { LONG_WEEKDAYS } from '../../domain/text/words.ts'
import type { Span } from './week-drawing.ts'

/** What is wrong with the hours of one day; null when nothing is. */
export function dayProblem(spans: readonly Span[]): string | null {
  if (spans.some(({ from, to }) => from === '' || to === '')) return 'Give both times, like 08:00.'
  if (spans.some(({ from, to }) => from >= to)) return 'The hours must end after they start.'
  const overlaps = spans.some((span, index) => {
    const before = spans[index - 1]
    return before !== undefined && span.from < before.to
  })
  return overlaps ? 'Put the hours in order, without overlap.' : null
}

export function weekProblem(week: WorkingWeek): string | null {
  const day = week.findIndex((spans) => dayProblem(spans) !== null)
  const problem = dayProblem(week[day] ?? [])
  return problem === null ? null : `${LONG_WEEKDAYS[day]}: ${problem}`
}
