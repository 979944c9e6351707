import { capital, hours } from '../text/words.ts'
import type { VarianceGroup } from '../value/variance-groups.ts'
import type { VarianceSums } from '../value/variance-sums.ts'
import { keyName, type KeyNames } from './variance-lines.ts'
import type { VarianceLoss } from './variance-shapes.ts'

/**
 * Where hours are lost, and why: the gates and repair types with the most hours spent and expected beyond the authorised
 * ones (-VAC), and the causes with the most rework. They are cuts through the same hours, so they do not add up.
 */
export function varianceLosses(groups: VarianceSums['groups'], names: KeyNames): readonly VarianceLoss[] {
  const overruns = (['gate', 'type'] as const).flatMap((grouping) =>
    most(groups[grouping].filter(isOwn(grouping)).map((group) => overrun(grouping, group, names))),
  )
  const causes = most(groups.cause.map((group) => reworkLoss(group, groups.gate)))
  return [...overruns, ...causes].toSorted((a, b) => b.hours - a.hours)
}

/** Tasks are one group among the gates and among the types, and are told once. */
const isOwn =
  (grouping: 'gate' | 'type') =>
  ({ key }: VarianceGroup): boolean =>
    grouping === 'gate' || key !== TASKS

const MOST_OF_A_KIND = 3
/** Person-hours: less is told by no tablet's figures. */
const LEAST = 0.5

const most = (losses: readonly VarianceLoss[]): readonly VarianceLoss[] =>
  losses
    .filter((loss) => loss.hours >= LEAST)
    .toSorted((a, b) => b.hours - a.hours)
    .slice(0, MOST_OF_A_KIND)

function overrun(grouping: 'gate' | 'type', group: VarianceGroup, names: KeyNames): VarianceLoss {
  const { authorised, expected, rework, onReleased } = group.figures
  const name = keyName(grouping, group.key, names)
  const takes = MANY.has(group.key) ? 'take' : 'takes'
  const beyond = hours(expected - authorised)
  const reasons = [
    ...(rework >= LEAST
      ? [`${hours(rework)} of it ${isOne(rework) ? 'is' : 'are'} rework${mostlyFor(group)}`]
      : []),
    ...(onReleased >= LEAST
      ? [`${hours(onReleased)} ${isOne(onReleased) ? 'was' : 'were'} spent on released holds`]
      : []),
  ]
  const words = `${capital(name)} ${takes} ${beyond} more than the ${hours(authorised)} authorised, spent and expected together`
  return {
    grouping,
    key: group.key,
    name,
    hours: expected - authorised,
    words: `${[words, ...reasons].join('; ')}.`,
  }
}

const TASKS = 'tasks'
/** Keys whose names are plural. */
const MANY: ReadonlySet<string> = new Set([TASKS, 'no type'])

/** One hour, as it is said. */
const isOne = (value: number): boolean => hours(value) === '1.0 h'

function mostlyFor({ causes }: VarianceGroup): string {
  const [first] = [...causes].toSorted(([, a], [, b]) => b - a)
  if (first === undefined) return ''
  const [cause] = first
  return causes.size === 1 ? ` (${CAUSE_WORDS[cause]})` : ` (mostly ${CAUSE_WORDS[cause]})`
}

/** Rework of one cause, with the gate where most of it was. */
function reworkLoss({ key, figures }: VarianceGroup, gates: readonly VarianceGroup[]): VarianceLoss {
  const cause = key as Cause
  const at = gates
    .map((gate) => ({ key: gate.key, hours: gate.causes.get(cause) ?? 0 }))
    .toSorted((a, b) => b.hours - a.hours)[0]
  const where =
    at === undefined ? '' : ` ${at.hours >= figures.rework - LEAST ? 'at' : 'mostly at'} ${at.key}`
  return {
    grouping: 'cause',
    key,
    name: CAUSE_WORDS[cause],
    hours: figures.rework,
    words: `${hours(figures.rework)} went into rework${where}: ${CAUSE_WORDS[cause]}.`,
  }
}

type Cause = Parameters<VarianceGroup['causes']['get']>[0]

const CAUSE_WORDS: Readonly<Record<Cause, string>> = {
  workmanship: 'workmanship',
  material: 'material',
  fit: 'fit',
  measurement: 'measurement',
  'damaged after': 'damaged afterwards',
  'changed mind': 'a changed mind',
  'found later': 'found later',
  away: 'what was done away',
  'not stated': 'no cause stated',
}
