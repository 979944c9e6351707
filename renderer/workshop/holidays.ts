import { daysBetween } from '../../domain/time/local-date.ts'

export interface ClosedDays {
  readonly from: string
  readonly to: string
  readonly name: string
}

/** Days of one name that follow each other, a weekend between them or not, said as one. Takes them in order. */
export function joinDays(
  days: readonly { readonly date: string; readonly name: string }[],
): readonly ClosedDays[] {
  const joined: ClosedDays[] = []
  for (const { date, name } of days) {
    const last = joined.at(-1)
    if (last?.name === name && daysBetween(last.to, date) <= OVER_A_WEEKEND)
      joined[joined.length - 1] = { ...last, to: date }
    else joined.push({ from: date, to: date, name })
  }
  return joined
}

/** From a Friday to the Monday after it. */
const OVER_A_WEEKEND = 3
