import type { CarState } from '../car.ts'
import { PLACES, SIDES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { CarId, PersonId } from '../ids.ts'
import {
  carGroups,
  type Grouping,
  mergeGroups,
  NOT_YET,
  type VarianceGroup,
  varianceIndices,
} from '../value/variance-groups.ts'
import type { WorkshopState } from '../workshop.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'
import type { VarianceLine, VarianceView } from './view-shapes.ts'

/**
 * Hours against the estimate over all visits of the given cars, in every grouping. Each holds every hour once, so all add
 * up to the same figures; the lines by person are the exception, as they are shown only to whom they may be.
 *
 * @param by who is signed in on the device
 */
export function varianceView({
  cars,
  by,
  ...input
}: ViewInput & { readonly cars: readonly CarState[]; readonly by: PersonId | null }): VarianceView {
  const context = createViewContext(input)
  const groupsBy = (grouping: Grouping) =>
    mergeGroups(cars.flatMap((car) => carGroups(car, context)[grouping]))
  const visits = visitLabels(cars)
  const { workshop } = context
  return {
    byCar: groupsBy('visit').map((group) => toLine(group, visits.get(group.key)?.name ?? '', visits)),
    byType: worstFirst(groupsBy('type').map((group) => toLine(group, typeName(group.key, workshop)))),
    byGate: inOrder(groupsBy('gate'), GATES).map((group) => toLine(group, taskName(group.key))),
    byZone: inOrder(groupsBy('zone'), ZONES).map((group) => toLine(group, taskName(group.key))),
    byMonth: groupsBy('month')
      .toSorted((a, b) => monthRank(a.key).localeCompare(monthRank(b.key)))
      .map((group) => toLine(group, monthWords(group.key))),
    byPerson: personLines(groupsBy('person'), by, context),
    rework: reworkByCause(groupsBy('gate')),
  }
}

const TASKS = 'tasks'
const ZONES = SIDES.flatMap((side) => PLACES.map((place) => `${side} ${place}`))

interface VisitLabel {
  readonly carId: CarId
  readonly name: string
}

const visitLabels = (cars: readonly CarState[]): ReadonlyMap<string, VisitLabel> =>
  new Map(
    cars.flatMap((car) =>
      [...car.visits.values()].map(({ id, kind }) => [
        id,
        { carId: car.id, name: kind === 'warranty' ? `${car.name}, warranty` : car.name },
      ]),
    ),
  )

function toLine(
  { key, figures }: VarianceGroup,
  name: string,
  visits?: ReadonlyMap<string, VisitLabel>,
): VarianceLine {
  const { costVariance, costIndex } = varianceIndices(figures)
  const { baseline, authorised, waiting, earned, spent, rework, givenBack, expected, onReleased } = figures
  return {
    key,
    name,
    carId: visits?.get(key)?.carId ?? null,
    baseline,
    hours: { authorised, waiting, earned, spent, rework, givenBack },
    expected,
    onReleased,
    variance: costVariance,
    index: costIndex,
  }
}

/**
 * Figures by person are off until the manager turns them on; then managers see everybody's and each person their own. Null
 * when this person may see none.
 */
function personLines(
  groups: readonly VarianceGroup[],
  by: PersonId | null,
  { workshop, nameOf }: ViewContext,
): readonly VarianceLine[] | null {
  if (by === null || !workshop.settings.figuresByPerson) return null
  const isManager = workshop.people.get(by)?.roles.includes('manager') === true
  return worstFirst(
    groups
      .filter(({ key }) => isManager || key === by)
      .map((group) => toLine(group, group.key === NOT_YET ? 'Nobody yet' : nameOf(group.key as PersonId))),
  )
}

function typeName(key: string, workshop: WorkshopState): string {
  if (key === 'no type') return 'Repairs without a type'
  if (key === TASKS) return taskName(key)
  return [...workshop.types.values()].find(({ id }) => id === key)?.plan.name ?? 'A type that is gone'
}

const taskName = (key: string): string => (key === TASKS ? 'Tasks' : key)

/** What is still to be accepted or done comes last. */
const monthRank = (key: string): string => (key === NOT_YET ? '9999-99' : key)

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** '2026-11' is November 2026. */
function monthWords(key: string): string {
  if (key === NOT_YET) return 'Still to come'
  const [year, month] = key.split('-')
  return `${MONTHS[Number(month) - 1] ?? ''} ${year ?? ''}`
}

/** In the order of the keys; what is not among them, like tasks, comes last. */
function inOrder(groups: readonly VarianceGroup[], keys: readonly string[]): readonly VarianceGroup[] {
  const rank = ({ key }: VarianceGroup) => (keys.includes(key) ? keys.indexOf(key) : keys.length)
  return groups.toSorted((a, b) => rank(a) - rank(b))
}

const worstFirst = (lines: readonly VarianceLine[]): readonly VarianceLine[] =>
  lines.toSorted((a, b) => a.variance - b.variance)

/** Over any grouping, most hours first. */
function reworkByCause(groups: readonly VarianceGroup[]): VarianceView['rework'] {
  const causes = new Map<string, number>()
  for (const group of groups)
    for (const [cause, hours] of group.causes) causes.set(cause, (causes.get(cause) ?? 0) + hours)
  return [...causes].map(([cause, hours]) => ({ cause, hours })).toSorted((a, b) => b.hours - a.hours)
}
