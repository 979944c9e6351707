import type { RepairCard } from '../../../domain/views/shared-views.ts'

/** Repairs that the support hold is about: load-bearing, on the shell, and still to be worked on. */
export const bearingRepairs = <R extends Pick<RepairCard, 'loadBearing' | 'onPart' | 'finished' | 'retired'>>(
  repairs: readonly R[],
): readonly R[] =>
  repairs.filter(
    ({ loadBearing, onPart, finished, retired }) => loadBearing && !onPart && !finished && !retired,
  )

/** Why support cannot be lifted for these: it takes two that stand open together. Null when there are as many. */
export function tooFewToLift(bearing: readonly Pick<RepairCard, 'name'>[]): string | null {
  const [only, another] = bearing
  if (only === undefined) return 'No load-bearing repair of this shell is still to be finished.'
  if (another !== undefined) return null
  return `${only.name} is the only load-bearing repair of this shell that is still to be finished. Support is lifted for two or more that stand open together; one alone needs no lift.`
}
