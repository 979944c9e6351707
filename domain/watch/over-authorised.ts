import type { CarState, VisitState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { isFinished } from '../rules/standing.ts'
import { localDateOf } from '../time/zone.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import { type TargetFigures, visitFigures } from '../value/hours.ts'
import { hoursToGo } from '../value/hours-to-go.ts'
import { targetKey } from '../value/target.ts'
import { targetEnd } from '../value/target-history.ts'
import { type Stretch, stretchDate, stretchesOn } from './stretches.ts'
import type { OverAuthorised, OverPart } from './warning.ts'

/** Hours beyond the authorised ones that are worth a talk with the payer: entries are kept in quarters of an hour. */
export const LEAST_OVER_HOURS = 0.5

/**
 * A car whose work is expected to take more hours than are authorised, or else its unfinished repairs that are: what is
 * spent and what is still to do, as far as somebody agreed to pay it. `told` are hours by target key that a warning of their
 * own tells of. Accepting more, less work and a smaller rest end it.
 */
export function overAuthorised(
  car: CarState,
  visit: VisitState,
  context: HoursContext,
  told: ReadonlyMap<string, number>,
): readonly OverAuthorised[] {
  const works = [...visitFigures(car, visit.id, context)].map(([key, figures]) =>
    workOf(car, visit, figures, told.get(key) ?? 0, context),
  )
  const stepsOf = (work: Work) => workSteps(car, visit, work, context)
  const whole = warningFor(null, works, stepsOf, context)
  if (whole !== null) return [whole]
  return [...Map.groupBy(works, ({ of }) => ('repairId' in of ? of.repairId : null))].flatMap(([id, own]) => {
    const repair = id === null ? undefined : car.repairs.get(id)
    if (repair === undefined || repair.retired !== null || isFinished(repair)) return []
    const warning = warningFor(repair.id, own, stepsOf, context)
    return warning === null ? [] : [warning]
  })
}

/** A gate or task as it adds to what its repair and car are over. */
interface Work {
  readonly of: OverPart['of']
  readonly target: WorkTarget
  readonly authorised: number
  readonly expected: number
  readonly told: number
}

interface Step {
  readonly date: string
  readonly hours: number
}

const beyondOf = ({ expected, authorised, told }: Work): number => expected - authorised - told

function workOf(
  car: CarState,
  visit: VisitState,
  figures: TargetFigures,
  told: number,
  context: HoursContext,
): Work {
  const { target, hours } = figures
  const of = target.kind === 'gate' ? { repairId: target.repairId } : { taskId: target.taskId }
  const expected = hours.spent + hoursToGo(car, visit, figures, context)
  return { of, target, authorised: hours.authorised, expected, told }
}

/**
 * By when how much of its hours beyond came, or were saved; they add up to them: each stretch beyond the authorised hours on
 * its day, the rest on the day that it was done or last spoken of.
 */
function workSteps(car: CarState, visit: VisitState, work: Work, context: HoursContext): readonly Step[] {
  const { target } = work
  const stretches = stretchesOn(car, target, context)
  const limit = work.authorised + work.told
  let sum = 0
  const steps: Step[] = []
  for (const stretch of stretches) {
    const { hours } = stretch
    const over = Math.max(0, sum + hours - limit) - Math.max(0, sum - limit)
    if (over > 0) steps.push({ date: stretchDate(stretch, context), hours: over })
    sum += hours
  }
  const rest = beyondOf(work) - steps.reduce((all, { hours }) => all + hours, 0)
  const date = restDate(car, visit, target, stretches, context)
  return date === null ? steps : [...steps, { date, hours: rest }]
}

/** When a gate or task was done or last spoken of, else worked on; null before it is begun. */
function restDate(
  car: CarState,
  visit: VisitState,
  target: WorkTarget,
  stretches: readonly Stretch[],
  context: HoursContext,
): string | null {
  const settled = targetEnd(car, visit, target)?.at ?? car.left.get(targetKey(target))?.stamp.happened
  if (settled !== undefined) return localDateOf(settled, context.workshop.zone)
  const last = stretches.at(-1)
  return last === undefined ? null : stretchDate(last, context)
}

function warningFor(
  repairId: RepairId | null,
  works: readonly Work[],
  stepsOf: (work: Work) => readonly Step[],
  { workshop, at }: HoursContext,
): OverAuthorised | null {
  const sumOf = (figure: (work: Work) => number) => works.reduce((sum, work) => sum + figure(work), 0)
  const hours = sumOf(beyondOf)
  if (hours < LEAST_OVER_HOURS) return null
  return {
    kind: 'over authorised',
    key: `over authorised ${repairId ?? 'car'}`,
    since: lastCrossing(works.flatMap(stepsOf)) ?? localDateOf(at, workshop.zone),
    hours,
    repairId,
    expected: sumOf(({ expected }) => expected),
    authorised: sumOf(({ authorised }) => authorised),
    parts: repairId === null ? partsOf(works) : [],
  }
}

/** The day since which the hours have been beyond all the time. */
function lastCrossing(steps: readonly Step[]): string | null {
  const byDate = Map.groupBy(steps, ({ date }) => date)
  let sum = 0
  let since: string | null = null
  for (const date of [...byDate.keys()].toSorted()) {
    for (const { hours } of byDate.get(date) ?? []) sum += hours
    if (sum < LEAST_OVER_HOURS) since = null
    else since ??= date
  }
  return since
}

function partsOf(works: readonly Work[]): readonly OverPart[] {
  const byOwner = Map.groupBy(works, ({ of }) => ('repairId' in of ? of.repairId : of.taskId))
  return [...byOwner.values()]
    .flatMap((own) => {
      const hours = own.reduce((sum, work) => sum + beyondOf(work), 0)
      return own[0] !== undefined && hours >= LEAST_OVER_HOURS ? [{ of: own[0].of, hours }] : []
    })
    .toSorted((a, b) => b.hours - a.hours)
}
