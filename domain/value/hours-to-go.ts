import type { CarState, VisitState } from '../car.ts'
import { hoursLeft } from '../plan/build/hours-left.ts'
import type { HoursContext } from './entry-hours.ts'
import { estimatedHours } from './estimated-hours.ts'
import type { TargetFigures } from './hours.ts'
import { targetKey } from './target.ts'
import { variedHours } from './varied-hours.ts'

/**
 * Person-hours expected to be still spent on the authorised work of a gate or task: all of it before it is begun, then
 * what its technician says is left, else the expected rest. 0 once it is done, and in a visit that another one followed.
 */
export function hoursToGo(
  car: CarState,
  visit: VisitState,
  { target, standing, hours }: TargetFigures,
  context: HoursContext,
): number {
  if (standing !== 'open' || visit.id !== car.currentVisit) return 0
  const left = hoursLeft(car, target, context)
  if (car.left.has(targetKey(target))) return left.hours
  // The planner's estimate holds lines that are not accepted too; authorised are accepted lines and variations.
  const planned = estimatedHours(car, visit.id, target) + variedHours(car, visit.id, target)
  const further = hours.authorised - planned
  return Math.max(0, left.begun ? left.hours + further : hours.authorised)
}
