import { addDays, daysBetween } from '../../domain/time/local-date.ts'

/** Days on which the workshop is closed, both included. */
export interface ClosedDays {
  readonly from: string
  readonly to: string
  readonly name: string
}

interface Holiday {
  readonly date: string
  readonly name: string
}

/** Days of one name that follow each other, a weekend between them or not, said as one. Takes them in order. */
export function joinDays(days: readonly Holiday[]): readonly ClosedDays[] {
  const joined: ClosedDays[] = []
  for (const { date, name } of days) {
    const last = joined.at(-1)
    if (last?.name === name && daysBetween(last.to, date) <= OVER_A_WEEKEND)
      joined[joined.length - 1] = { ...last, to: date }
    else joined.push({ from: date, to: date, name })
  }
  return joined
}

/** Day by day again, in order; where two overlap, the later name counts. */
export function partDays(closed: readonly ClosedDays[]): readonly Holiday[] {
  const byDate = new Map(
    closed.flatMap(({ from, to, name }) =>
      Array.from({ length: daysBetween(from, to) + 1 }, (_, day) => [addDays(from, day), name] as const),
    ),
  )
  return [...byDate].map(([date, name]) => ({ date, name })).toSorted((a, b) => a.date.localeCompare(b.date))
}

/** Longer than any holiday: most likely a wrong year. */
export const isTooLong = ({ from, to }: ClosedDays): boolean => daysBetween(from, to) >= MOST_DAYS

const MOST_DAYS = 60
/** From a Friday to the Monday after it. */
const OVER_A_WEEKEND = 3
