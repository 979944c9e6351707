import type { CarState, EntryState, Moment } from '../../car.ts'
import type { ThreePoint, WorkTarget } from '../../facts/shapes.ts'
import { MS_PER_HOUR } from '../../time/zone.ts'
import { entryHours, entryPieces, type HoursContext } from '../../value/entry-hours.ts'
import { estimatedHours, expectedHours } from '../../value/estimated-hours.ts'
import { perRevision } from '../../value/per-revision.ts'
import { targetKey } from '../../value/target.ts'
import { variedHours } from '../../value/varied-hours.ts'
import { expectedRest } from './rest-of-work.ts'

/** What is left of a gate or task, in person-hours. */
export interface HoursLeft {
  readonly hours: number
  /** Work was done on it, or a clock runs on it. */
  readonly begun: boolean
  readonly points: ThreePoint
}

/** A tick of one person: what is begun and not signed takes at least so long. */
const LEAST_HOURS = 1 / 12

/**
 * Work not begun takes its estimate with what variations have added. Of work begun its technician's word counts, less what was done since; without it the
 * expected rest given the hours spent. Hours before the gate was last reopened are not spent on what is left.
 */
export function hoursLeft(car: CarState, target: WorkTarget, context: HoursContext): HoursLeft {
  const estimate = wholeEstimate(car, target)
  const points = scaledPoints(car, target, estimate)
  const spent = spentSince(car, target, reopenedAt(car, target), context)
  const said = car.left.get(targetKey(target))
  if (said !== undefined) {
    const since = spentSince(car, target, said.stamp.happened, context).hours
    const hours = said.hours === 0 ? 0 : Math.max(LEAST_HOURS, said.hours - since)
    return { hours, begun: spent.begun, points: scale(points, hours, estimate) }
  }
  if (!spent.begun) return { hours: estimate, begun: false, points }
  const hours = Math.max(LEAST_HOURS, expectedRest(points, spent.hours))
  return { hours, begun: true, points: scale(points, hours, estimate) }
}

/** Person-hours that a gate or task is expected to take in all, with what variations have added, as three points. */
export const wholePoints = (car: CarState, target: WorkTarget): ThreePoint =>
  scaledPoints(car, target, wholeEstimate(car, target))

const wholeEstimate = (car: CarState, target: WorkTarget): number =>
  Math.max(0, estimatedHours(car, car.currentVisit, target) + variedHours(car, car.currentVisit, target))

/** The three points of its estimate line or else of its plan, drawn out so that they expect what was agreed. */
function scaledPoints(car: CarState, target: WorkTarget, estimate: number): ThreePoint {
  const points = pointsOf(car, target)
  return scale(points, estimate, expectedHours(points))
}

function pointsOf(car: CarState, target: WorkTarget): ThreePoint {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  const key = targetKey(target)
  const line = [...(visit?.lines.values() ?? [])].find((each) => targetKey(each.target) === key)
  if (line !== undefined) return line.hours
  const plan =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.plan.gates[target.gate]
      : car.tasks.get(target.taskId)?.plan
  return plan?.hours ?? { shortest: 0, likely: 0, longest: 0 }
}

function scale({ shortest, likely, longest }: ThreePoint, hours: number, mean: number): ThreePoint {
  if (!(mean > 0)) return { shortest: hours, likely: hours, longest: hours }
  const factor = hours / mean
  return { shortest: shortest * factor, likely: likely * factor, longest: longest * factor }
}

function reopenedAt(car: CarState, target: WorkTarget): Moment {
  const record =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.gates[target.gate]
      : car.tasks.get(target.taskId)
  return record?.reopened?.stamp.happened ?? 0
}

interface Spent {
  readonly hours: number
  readonly begun: boolean
}

function spentSince(car: CarState, target: WorkTarget, since: Moment, context: HoursContext): Spent {
  const key = targetKey(target)
  let hours = 0
  let begun = false
  for (const entry of entriesOn(car, key)) {
    const share = shareSince(entry, since, context)
    if (share === 0) continue
    const own = entryPieces(car, entry, context).filter((piece) => targetKey(piece.target) === key)
    hours += share * own.reduce((sum, piece) => sum + piece.hours, 0)
    begun = true
  }
  return { hours, begun }
}

/** Entries of the visit that count and are on this target, in the order in which they were made. */
export function entriesOn(car: CarState, key: string): readonly EntryState[] {
  return entriesByTarget(car).get(key) ?? []
}

const entriesByTarget = perRevision((car): ReadonlyMap<string, readonly EntryState[]> => {
  const byTarget = new Map<string, EntryState[]>()
  for (const entry of car.entries.values()) {
    if (entry.gone !== null || entry.visitId !== car.currentVisit || entry.on.kind !== 'work') continue
    for (const key of new Set(entry.on.targets.map(targetKey)))
      byTarget.set(key, [...(byTarget.get(key) ?? []), entry])
  }
  return byTarget
})

/** How much of an entry lies after a moment, 0 to 1; hours brought from paper count whole when they were written later. */
function shareSince(entry: EntryState, since: Moment, context: HoursContext): number {
  if (entry.time.kind === 'day') return entry.stamp.happened > since ? 1 : 0
  const start = Date.parse(entry.time.start)
  if (start >= since) return 1
  const hours = entryHours(entry, context)
  const before = (since - start) / MS_PER_HOUR
  return hours <= before ? 0 : (hours - before) / hours
}
