import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { rounded, WEEKDAYS } from '../../domain/text/words.ts'

export type Span = WorkingWeek[number][number]

/** Hours from midnight: '08:30' is 8.5. */
export function clockHours(time: string): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number)
  return hours + minutes / 60
}

const spanHours = ({ from, to }: Span): number => Math.max(0, clockHours(to) - clockHours(from))

/** Hours of one day or of the whole week, to a hundredth. */
export const dayHoursOf = (spans: readonly Span[]): number =>
  rounded(
    spans.reduce((sum, span) => sum + spanHours(span), 0),
    2,
  )

export const weekHoursOf = (week: WorkingWeek): number =>
  rounded(
    week.reduce((sum, day) => sum + dayHoursOf(day), 0),
    2,
  )

/** Whole hours that the drawing of these weeks runs from and to; 6 to 18 holds most. */
export function shownHours(week: WorkingWeek): { readonly from: number; readonly to: number } {
  const spans = week.flat()
  return {
    from: Math.min(6, ...spans.map(({ from }) => Math.floor(clockHours(from)))),
    to: Math.max(18, ...spans.map(({ to }) => Math.ceil(clockHours(to)))),
  }
}

/** '08:00 to 12:30, 13:00 to 16:30', or 'off'. */
const dayWordsOf = (spans: readonly Span[]): string =>
  spans.length === 0 ? 'off' : spans.map(({ from, to }) => `${from} to ${to}`).join(', ')

/** Days that work alike said once: 'Mon to Fri 08:00 to 16:30; Sat, Sun off'. */
export function weekWordsOf(week: WorkingWeek): string {
  const groups: { readonly words: string; readonly days: string[] }[] = []
  week.forEach((spans, index) => {
    const words = dayWordsOf(spans)
    const last = groups.at(-1)
    if (last?.words === words) last.days.push(WEEKDAYS[index] ?? '')
    else groups.push({ words, days: [WEEKDAYS[index] ?? ''] })
  })
  return groups
    .map(({ words, days }) => `${days.length > 1 ? `${days[0]} to ${days.at(-1)}` : days[0]} ${words}`)
    .join('; ')
}
