import type { PersonId } from '../ids.ts'
import { type Grouping, totalFigures } from '../value/variance-groups.ts'
import type { VarianceSums, VisitLabel } from '../value/variance-sums.ts'
import { mayShowPeople, mayShowPerson } from './person-figures.ts'
import { byVariance, figuresView, inOwnOrder, keyName, type KeyNames, toLine } from './variance-lines.ts'
import { varianceLosses } from './variance-losses.ts'
import type { VarianceLine, VarianceView, VisitVarianceLine } from './variance-shapes.ts'
import type { ViewInput } from './view-context.ts'

export interface VarianceInput extends Omit<ViewInput, 'now'> {
  readonly sums: VarianceSums
  /** Who is signed in on the device. */
  readonly by: PersonId | null
}

/**
 * Hours against the estimate over all visits, in every grouping. Each holds every hour once, so all add up to the same
 * figures; the lines by person are the exception, as they are shown only to whom they may be.
 */
export function varianceView({ sums, by, workshop, nameOf }: VarianceInput): VarianceView {
  const { groups, visits } = sums
  const names: KeyNames = { workshop, nameOf, visits }
  const linesIn = (grouping: 'gate' | 'zone' | 'month') =>
    inOwnOrder(groups[grouping], grouping).map((group) =>
      toLine(group, keyName(grouping, group.key, names), null),
    )
  return {
    total: figuresView(totalFigures(groups.visit)),
    byCar: visitLines(sums),
    byType: groups.type
      .map((group) => toLine(group, keyName('type', group.key, names), null))
      .toSorted(byVariance),
    byGate: linesIn('gate'),
    byZone: linesIn('zone'),
    byMonth: linesIn('month'),
    byPerson: personLines(sums, by, names),
    rework: groups.cause
      .map(({ key, figures }) => ({ cause: key, hours: figures.rework }))
      .toSorted((a, b) => b.hours - a.hours),
    losses: varianceLosses(groups, names),
    compares: COMPARES,
  }
}

const OPEN_HAS_EARNED_NOTHING =
  'Variance is earned less spent. A gate earns its authorised hours when it is passed, so hours on gates still open have earned nothing yet.'

const COMPARES: Readonly<Record<Grouping, string>> = {
  visit: OPEN_HAS_EARNED_NOTHING,
  type: OPEN_HAS_EARNED_NOTHING,
  gate: OPEN_HAS_EARNED_NOTHING,
  zone: OPEN_HAS_EARNED_NOTHING,
  month:
    'Hours stand in the month in which they were authorised, earned or spent. What was spent in a month may be earned in a later one, when its gate is passed; it was often authorised in an earlier one.',
  person:
    'The authorised and earned hours of a gate are shared by the hours that people spent on it; rework earns nothing. Hours on gates still open have earned nothing yet.',
}

function visitLines({ groups, visits }: VarianceSums): readonly VisitVarianceLine[] {
  const labels = new Map<string, VisitLabel>(visits.map((label) => [label.visitId, label]))
  return groups.visit.flatMap((group) => {
    const label = labels.get(group.key)
    if (label === undefined) return []
    const { carId, visitId, name, schedule } = label
    return [{ ...toLine(group, name, carId), carId, visitId, schedule }]
  })
}

/** Null when this person may see none. */
function personLines(
  { groups }: VarianceSums,
  by: PersonId | null,
  names: KeyNames,
): readonly VarianceLine[] | null {
  if (!mayShowPeople(names.workshop, by)) return null
  return groups.person
    .filter(({ key }) => mayShowPerson(names.workshop, by, key))
    .map((group) => toLine(group, keyName('person', group.key, names), null))
    .toSorted(byVariance)
}
