import { ok, refuse, type Result } from '../refusal.ts'
import { asRead, type Judgement, judgementOf, toHundredths } from './judgement.ts'

/** Readings along one edge of an opening, all in mm. */
export interface EdgeReading {
  /** Gap at each place read, in order along the edge; below 0 where the panels overlap. */
  readonly gapsMm: readonly number[]
  /** Step across the edge, positive when the hung part stands proud. */
  readonly flushMm: number
}

export interface EdgeLimits {
  readonly nominalMm: number
  /** How far any gap may be from the nominal one, either way. */
  readonly toleranceMm: number
  /** How far the step may be from flush, either way. */
  readonly flushToleranceMm: number
}

export interface EdgeSummary {
  readonly minMm: number
  readonly maxMm: number
  readonly meanMm: number
  /** Range along the edge. */
  readonly taperMm: number
  readonly flushMm: number
}

/** The same edge on both sides of the car. */
export interface SideComparison {
  /** Left minus right, mean gap. */
  readonly meanDifferenceMm: number
  /** Left minus right, where the sides differ most, place by place; null unless both were read at as many places. */
  readonly widestDifferenceMm: number | null
  /** Left minus right. */
  readonly flushDifferenceMm: number
}

/** Whether every gap and the step lie inside tolerance, and if not which do not. */
export function judgeEdge(reading: EdgeReading, limits: EdgeLimits): Judgement {
  const summary = summariseEdge(reading)
  if (!summary.ok) return judgementOf([summary.refusal.message])
  return judgementOf([...gapProblems(summary.value, limits), ...flushProblems(summary.value, limits)])
}

/** Minimum, maximum, mean, taper and flush step of an edge. Refused without a reading or with one that is no number. */
export function summariseEdge({ gapsMm, flushMm }: EdgeReading): Result<EdgeSummary> {
  if (gapsMm.length === 0) {
    return refuse('bad-input', 'This edge has no gap reading.', 'Read the gap at one place at least.')
  }
  if (![...gapsMm, flushMm].every(Number.isFinite)) {
    return refuse('bad-input', 'A reading of this edge is not a number.', 'Read it again, in mm.')
  }
  const minMm = Math.min(...gapsMm)
  const maxMm = Math.max(...gapsMm)
  const meanMm = gapsMm.reduce((sum, gap) => sum + gap, 0) / gapsMm.length
  return ok({ minMm, maxMm, meanMm, taperMm: maxMm - minMm, flushMm })
}

/**
 * Left compared with right, place by place where both sides were read at as many places (from the same end), else by
 * the mean. Refused like {@link summariseEdge}.
 */
export function compareSides(left: EdgeReading, right: EdgeReading): Result<SideComparison> {
  const leftEdge = summariseEdge(left)
  if (!leftEdge.ok) return leftEdge
  const rightEdge = summariseEdge(right)
  if (!rightEdge.ok) return rightEdge
  const meanDifferenceMm = leftEdge.value.meanMm - rightEdge.value.meanMm
  const widestDifferenceMm = widestDifference(left.gapsMm, right.gapsMm)
  const flushDifferenceMm = left.flushMm - right.flushMm
  return ok({ meanDifferenceMm, widestDifferenceMm, flushDifferenceMm })
}

/** 'gaps differ by 0.6 mm at one place, the left wider; the left stands 0.3 mm prouder' */
export function sidesWords({
  meanDifferenceMm,
  widestDifferenceMm,
  flushDifferenceMm,
}: SideComparison): string {
  const gap = widestDifferenceMm ?? meanDifferenceMm
  const where = widestDifferenceMm === null ? 'on average' : 'at one place'
  const gaps = isNothing(gap)
    ? 'gaps alike'
    : `gaps differ by ${asRead(Math.abs(gap))} mm ${where}, the ${largerSide(gap)} wider`
  const steps = isNothing(flushDifferenceMm)
    ? 'as flush'
    : `the ${largerSide(flushDifferenceMm)} stands ${asRead(Math.abs(flushDifferenceMm))} mm prouder`
  return `${gaps}; ${steps}`
}

const isNothing = (mm: number): boolean => toHundredths(mm) === 0
/** Of a difference left minus right. */
const largerSide = (mm: number): 'left' | 'right' => (mm > 0 ? 'left' : 'right')

function gapProblems(edge: EdgeSummary, { nominalMm, toleranceMm }: EdgeLimits): readonly string[] {
  const least = nominalMm - toleranceMm
  const most = nominalMm + toleranceMm
  const problems: string[] = []
  if (toHundredths(edge.minMm) < toHundredths(least)) {
    problems.push(`narrowest gap is ${asRead(edge.minMm)} mm; at least ${asRead(least)} mm is needed`)
  }
  if (toHundredths(edge.maxMm) > toHundredths(most)) {
    problems.push(`widest gap is ${asRead(edge.maxMm)} mm; at most ${asRead(most)} mm is allowed`)
  }
  return problems
}

function flushProblems({ flushMm }: EdgeSummary, { flushToleranceMm }: EdgeLimits): readonly string[] {
  if (toHundredths(Math.abs(flushMm)) <= toHundredths(flushToleranceMm)) return []
  const way = flushMm > 0 ? 'proud' : 'low'
  return [
    `edge stands ${asRead(Math.abs(flushMm))} mm ${way}; at most ${asRead(flushToleranceMm)} mm is allowed`,
  ]
}

/** The signed difference of largest size; null when the sides were not read at as many places. */
function widestDifference(left: readonly number[], right: readonly number[]): number | null {
  if (left.length !== right.length) return null
  return left
    .map((gap, place) => gap - (right[place] ?? gap))
    .reduce((widest, difference) => (Math.abs(difference) > Math.abs(widest) ? difference : widest), 0)
}
