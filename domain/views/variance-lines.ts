import { PLACES, SIDES } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import type { CarId, PersonId } from '../ids.ts'
import type { VisitLabel } from '../value/variance-sums.ts'
import { type DrillGrouping, NOT_YET, type VarianceGroup, varianceIndices } from '../value/variance-groups.ts'
import type { VarianceFigures } from '../value/variance-row.ts'
import type { WorkshopState } from '../workshop.ts'
import type { NameOf } from './shared-views.ts'
import type { VarianceFiguresView, VarianceLine } from './variance-shapes.ts'

/** Person-hours; indices are ratios, and null where they would divide by zero. */
export function figuresView(figures: VarianceFigures): VarianceFiguresView {
  const { baseline, authorised, waiting, earned, spent, rework, givenBack, expected } = figures
  const { costVariance, costIndex, scheduleVariance, scheduleIndex } = varianceIndices(figures)
  return {
    baseline,
    hours: { authorised, waiting, earned, spent, rework, givenBack },
    expected,
    atCompletion: authorised - expected,
    onReleased: figures.onReleased,
    spentOnOpen: figures.spentOnOpen,
    variance: costVariance,
    index: costIndex,
    planned: figures.planned,
    scheduleVariance,
    scheduleIndex,
  }
}

export const toLine = ({ key, figures }: VarianceGroup, name: string, carId: CarId | null): VarianceLine => ({
  key,
  name,
  carId,
  ...figuresView(figures),
})

/** What names the key of any grouping. */
export interface KeyNames {
  readonly workshop: WorkshopState
  readonly nameOf: NameOf
  readonly visits: readonly VisitLabel[]
}

/** What a group is called on the screen; keys of visits, types and people that are gone have a name too. */
export function keyName(grouping: DrillGrouping, key: string, names: KeyNames): string {
  switch (grouping) {
    case 'visit':
      return names.visits.find(({ visitId }) => visitId === key)?.name ?? 'A visit'
    case 'type':
      return typeName(key, names.workshop)
    case 'gate':
    case 'zone':
      return key === TASKS ? 'Tasks' : key
    case 'person':
      return key === NOT_YET ? 'Nobody yet' : names.nameOf(key as PersonId)
    case 'month':
      return monthWords(key)
    case 'cause':
      return key
  }
}

/** In the order of a grouping that has one of its own; what is not in it, like tasks or what is still to come, comes last. */
export function inOwnOrder(
  groups: readonly VarianceGroup[],
  grouping: 'gate' | 'zone' | 'month',
): readonly VarianceGroup[] {
  if (grouping === 'month') return groups.toSorted((a, b) => (monthRank(a.key) < monthRank(b.key) ? -1 : 1))
  const keys = grouping === 'gate' ? GATE_KEYS : ZONE_KEYS
  const rank = ({ key }: VarianceGroup) => (keys.includes(key) ? keys.indexOf(key) : keys.length)
  return groups.toSorted((a, b) => rank(a) - rank(b))
}

/** Most hours more spent than earned first. */
export const byVariance = (a: VarianceFiguresView, b: VarianceFiguresView): number => a.variance - b.variance

/**
 * What a drill-down starts with: of a cause its rework, of a month what was spent beyond what was earned in it, else what is
 * spent and expected beyond what is authorised.
 */
export function worstFirst<T extends VarianceFiguresView>(
  lines: readonly T[],
  grouping: DrillGrouping,
): readonly T[] {
  const loss = ({ hours, variance, atCompletion }: VarianceFiguresView): number => {
    if (grouping === 'cause') return hours.rework
    return grouping === 'month' ? -variance : -atCompletion
  }
  return lines.toSorted((a, b) => loss(b) - loss(a) || byVariance(a, b))
}

const TASKS = 'tasks'
const GATE_KEYS: readonly string[] = GATES
const ZONE_KEYS = SIDES.flatMap((side) => PLACES.map((place) => `${side} ${place}`))

function typeName(key: string, workshop: WorkshopState): string {
  if (key === 'no type') return 'Repairs without a type'
  if (key === TASKS) return 'Tasks'
  return [...workshop.types.values()].find(({ id }) => id === key)?.plan.name ?? 'A type that is gone'
}

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
