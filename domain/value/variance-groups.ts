import {
  addInto,
  type FiguresDraft,
  noFigures,
  type VarianceFigures,
  type VarianceLabels,
  type VarianceRow,
} from './variance-row.ts'

export const GROUPINGS = ['visit', 'type', 'gate', 'person', 'zone', 'month'] as const
export type Grouping = (typeof GROUPINGS)[number]
/** By cause there is rework only, so that it does not add up to the other groupings. */
export const DRILL_GROUPINGS = [...GROUPINGS, 'cause'] as const
export type DrillGrouping = (typeof DRILL_GROUPINGS)[number]

/** The key of hours with no person or month: what nobody has done yet, and what is still to be accepted or done. */
export const NOT_YET = 'not yet'

/** The rows of one group of a grouping, added up. */
export interface VarianceGroup {
  readonly key: string
  readonly figures: VarianceFigures
  /** Rework by its cause, person-hours; they add up to the rework of the figures. */
  readonly causes: ReadonlyMap<NonNullable<VarianceLabels['cause']>, number>
}

/** The published variances and indices of one group, in person-hours; null is undefined. */
export interface VarianceIndices {
  /** CV = EV - AC */
  readonly costVariance: number
  /** CPI = EV / AC */
  readonly costIndex: number | null
  /** SV = EV - PV of the work that has a planned value; null where none has. */
  readonly scheduleVariance: number | null
  /** SPI = EV / PV of the work that has a planned value. */
  readonly scheduleIndex: number | null
}

/** One group for each key, in the order in which the keys first come. All groupings of the same rows add up to the same. */
export function groupRows(rows: Iterable<VarianceRow>, grouping: DrillGrouping): readonly VarianceGroup[] {
  const groups = new Map<string, GroupDraft>()
  for (const { labels, figures } of rows) {
    const key = groupKey(labels, grouping)
    if (key === null) continue
    const group = draftOf(groups, key)
    addInto(group.figures, figures)
    if (labels.cause !== null) addCause(group.causes, labels.cause, figures.rework ?? 0)
  }
  return [...groups.values()]
}

/** The same groups of several cars as one group each. */
export function mergeGroups(parts: Iterable<VarianceGroup>): readonly VarianceGroup[] {
  const groups = new Map<string, GroupDraft>()
  for (const part of parts) {
    const group = draftOf(groups, part.key)
    addInto(group.figures, part.figures)
    for (const [cause, hours] of part.causes) addCause(group.causes, cause, hours)
  }
  return [...groups.values()]
}

/**
 * Variances and indices of a sum. In a grouping by person or month they compare what was earned there with what was spent
 * there: hours spent on a gate that is still open have earned nothing yet.
 */
export function varianceIndices(figures: VarianceFigures): VarianceIndices {
  const { earned, spent, planned, earnedOfPlanned } = figures
  const isPlanned = planned !== 0 || earnedOfPlanned !== 0
  return {
    costVariance: earned - spent,
    costIndex: spent === 0 ? null : earned / spent,
    scheduleVariance: isPlanned ? earnedOfPlanned - planned : null,
    scheduleIndex: planned === 0 ? null : earnedOfPlanned / planned,
  }
}

/** The whole of a grouping. */
export function totalFigures(groups: Iterable<VarianceGroup>): VarianceFigures {
  const sum: FiguresDraft = { ...noFigures }
  for (const { figures } of groups) addInto(sum, figures)
  return sum
}

/** Null where hours have no part in a grouping. */
export function groupKey(labels: VarianceLabels, grouping: DrillGrouping): string | null {
  switch (grouping) {
    case 'visit':
      return labels.visitId
    case 'type':
      return labels.type
    case 'gate':
      return labels.gate
    case 'person':
      return labels.person ?? NOT_YET
    case 'zone':
      return labels.zone
    case 'month':
      return labels.month ?? NOT_YET
    case 'cause':
      return labels.cause
  }
}

interface GroupDraft extends VarianceGroup {
  readonly figures: FiguresDraft
  readonly causes: Map<NonNullable<VarianceLabels['cause']>, number>
}

function draftOf(groups: Map<string, GroupDraft>, key: string): GroupDraft {
  const known = groups.get(key)
  if (known !== undefined) return known
  const group: GroupDraft = { key, figures: { ...noFigures }, causes: new Map() }
  groups.set(key, group)
  return group
}

const addCause = (causes: GroupDraft['causes'], cause: NonNullable<VarianceLabels['cause']>, hours: number) =>
  causes.set(cause, (causes.get(cause) ?? 0) + hours)
