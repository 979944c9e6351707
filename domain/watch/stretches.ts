import type { CarState, EntryState, Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { entriesOn } from '../plan/build/hours-left.ts'
import {
  entryDate,
  entryPieces,
  type EntryPiece,
  entryStart,
  type HoursContext,
} from '../value/entry-hours.ts'
import { targetKey } from '../value/target.ts'

/** The part of an entry that lies on one gate or task, in person-hours. */
export interface Stretch extends Pick<EntryPiece, 'hours' | 'rework'> {
  readonly entry: EntryState
  readonly from: Moment
}

/** What was worked on a gate or task in the current visit, the earliest first. */
export function stretchesOn(car: CarState, target: WorkTarget, context: HoursContext): readonly Stretch[] {
  const key = targetKey(target)
  const stretches = entriesOn(car, key).flatMap((entry) => {
    const pieces = entryPieces(car, entry, context).filter((piece) => targetKey(piece.target) === key)
    const from = entryStart(entry.time, entry.cause)
    return pieces.map(({ hours, rework }) => ({ entry, from, hours, rework }))
  })
  return stretches.filter(({ hours }) => hours > 0).toSorted((a, b) => a.from - b.from)
}

/** The local date that it belongs to. */
export const stretchDate = ({ entry }: Stretch, { workshop }: HoursContext): string =>
  entryDate(entry, workshop.zone)

/** The date of the stretch with which the hours pass a mark; null while they do not. */
export function datePassed(
  stretches: readonly Stretch[],
  mark: number,
  context: HoursContext,
): string | null {
  let sum = 0
  for (const stretch of stretches) {
    sum += stretch.hours
    if (sum > mark) return stretchDate(stretch, context)
  }
  return null
}
