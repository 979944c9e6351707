import type { Grade, ThreePoint } from '../facts/shapes.ts'
import { eachGate, GATES, type Gate } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { REPAIR_CORRELATION } from '../plan/likelihood/prior.ts'
import type { Proportion } from '../statistics/proportion.ts'
import { bandWords } from './band-words.ts'
import { type EstimateHistory, inCommon } from './estimate-history.ts'
import type { HiddenGrades } from './hidden-grades.ts'
import { type BandMethod, type OneSided, priorRatios } from './learned-ratios.ts'
import type { LearnedPoint } from './learned-point.ts'
import { mixtureCdf, mixtureLog, type Part } from './mixture.ts'
import { deviationOf, narrowed, type RatioCurve } from './ratio-curve.ts'
import { meanOfTable, type ScoreTable, TABLE_LIKELIHOODS } from './score-table.ts'
import { pointsFault, sumDeviation } from './three-points.ts'
import {
  carriedOf,
  type EstimatedGates,
  expectedOf,
  isAssessedAt,
  isBehind,
  isPricedAgain,
  openAt,
  type WorkPoint,
} from './work-point.ts'

/** A repair as it stands. Person-hours. */
export interface RepairToEstimate {
  readonly typeId: TypeId | null
  /** What it is called among its like, in the plural: 'spring hangers'. */
  readonly what: string
  /** Seen on the outermost layer before opening; null when nobody has said. */
  readonly outside: Grade | null
  /** Layers behind the outermost one. */
  readonly hiddenLayers: number
  /** The worst of them once assessed; null before, and where none was seen. */
  readonly worstHidden: Grade | null
  readonly gates: Readonly<Record<Gate, GateToEstimate>>
  /** Null where people estimated it. */
  readonly taken: TakenHours | null
}

/** Hours that were taken from finished repairs, so that what those ran over by is in them. */
export interface TakenHours {
  readonly repairs: number
  /** They are so many times what people estimate for such work. */
  readonly over: number
  /** How far these lay apart in size: a deviation of the logarithm. */
  readonly deviation: number
}

export interface GateToEstimate {
  /** First estimate. */
  readonly before: number
  /** Estimate as it stands, with accepted variations; 0 for a gate that is not needed. */
  readonly assessed: number
  readonly points: ThreePoint
  /** Passed or not needed. */
  readonly isDone: boolean
  /** Rework among it. */
  readonly spent: number
  /** Spent after it had been passed once. */
  readonly rework: number
}

/** What a repair takes as a whole, with what is spent. Person-hours. */
export interface RepairBand {
  readonly stage: 'before assessed' | 'assessed' | 'finished'
  /** 'spent' where nothing is left to guess. */
  readonly method: BandMethod | 'spent'
  /** Estimate as it stands. */
  readonly estimate: number
  readonly spent: number
  /** Of its logarithm with those of the other repairs of its car, 0 to below 1. */
  readonly correlation: number
  readonly hours: OneSided
  readonly mean: number
  readonly table: ScoreTable
  /** The worst hidden grade may be each of these, best to worst; one once it is known; none where nothing is hidden. */
  readonly hidden: readonly LikelyGrade[]
  /** Finished repairs that the method rests on. */
  readonly rests: { readonly own: number; readonly others: number }
  /** Multiples of what is expected, before the type's own repairs; null where they alone decide. */
  readonly prior: OneSided | null
  /** Sentences: what is likely hidden, how the hours were learned, what is spent. */
  readonly words: readonly string[]
  /** What the gates after assessed take for their estimate; null once assessed. */
  readonly behind: BehindMultiples | null
}

export interface LikelyGrade {
  readonly grade: Grade
  readonly likelihood: Proportion
  /** Finished repairs of the type with the same outside grade that turned out so. */
  readonly found: number
  /** What the gates after assessed take then for their first estimate. */
  readonly multiple: number
  /** How much wider hours lie around it for not knowing it better, 1 or more. */
  readonly unsure: number
  /** What the multiple may be wrong by, in variances of a repair. */
  readonly ofGrade: number
}

interface BehindMultiples {
  readonly parts: readonly Part[]
  readonly curve: RatioCurve
  /** What the gates' own three points spread already, as a deviation of the logarithm. */
  readonly ownDeviation: number
}

/**
 * What a repair takes: not exceeded with 50, 80 and 90 %. Before it is assessed it may turn out each hidden grade, each with
 * its own multiple of the estimate; then one. Around that its hours lie as those of finished repairs lay around theirs from
 * the same gate on. Gates done count as they came out and the rest follows them in part; a repair that has taken hours
 * beyond its gates done is one that takes more than those. Null where {@link bandFault} says why.
 */
export function repairBand(history: EstimateHistory, repair: RepairToEstimate): RepairBand | null {
  if (bandFault(repair) !== null) return null
  const point = pointOf(repair)
  const open = openAt(point)
  const spent = sumBy(repair, GATES, ({ spent: hours }) => hours)
  if (open.length === 0 || sumBy(repair, open, ({ assessed }) => assessed) <= 0)
    return spentBand(repair, spent, open.length === 0)
  const learned = history.learnedAt(repair.typeId, point)
  const isAssessed = isAssessedAt(point)
  const known = isAssessed ? repair.worstHidden : null
  const worst =
    repair.hiddenLayers === 0 || known !== null ? null : history.worstOf(repair.typeId, repair.outside)
  const hidden = likelyGrades(history, worst, known)
  const ways: readonly Way[] = hidden.length === 0 ? [SOLID] : hidden
  const gates = estimatedGates(repair, isAssessed)
  const sizes = unsureOfSize(repair, learned.curve)
  const isPriced = expectedOf(gates, open, { multiple: 1, pricedAgain: false }) > 0
  const pricedAgain = isAssessed && (!isPriced || isPricedAgain(gates))
  const behind = point.done.filter(isBehind)
  const parts = ways.map(({ likelihood, multiple, unsure }): Part => {
    const by = { multiple, pricedAgain }
    const carried = carriedOf(sumBy(repair, behind, firstSpent), expectedOf(gates, behind, by))
    const log = Math.log(expectedOf(gates, open, by)) + learned.slope * carried
    return { weight: likelihood.mean, log, spread: (pricedAgain ? 1 : unsure) * sizes }
  })
  const before = sumBy(repair, point.done, firstSpent)
  const hoursAt = restAt(parts, learned.curve, spent - before)
  const table = TABLE_LIKELIHOODS.map((likelihood) => before + hoursAt(likelihood))
  const { ratios } = learned
  return {
    stage: isAssessed ? 'assessed' : 'before assessed',
    method: ratios.method,
    estimate: sumBy(repair, GATES, ({ assessed }) => assessed),
    spent,
    correlation: inCommon(
      isAssessed ? learned.correlation : history.correlation,
      ratios,
      pricedAgain ? 0 : hidden.reduce((sum, { likelihood, ofGrade }) => sum + likelihood.mean * ofGrade, 0),
    ),
    hours: { p50: before + hoursAt(0.5), p80: before + hoursAt(0.8), p90: before + hoursAt(0.9) },
    mean: meanOfTable(table),
    table,
    hidden,
    rests: ratios.rests,
    prior: ratios.method === 'order statistic' ? null : priorRatios(ratios),
    words: bandWords({
      repair,
      worst,
      known: known === null ? null : history.multiples[known],
      pricedAgain,
      ratios,
      spent,
    }),
    behind: isAssessed ? null : behindOf(repair, ways, learned),
  }
}

/** Why a repair has no band, and what to do; null when it has one. */
export function bandFault({ gates }: RepairToEstimate): string | null {
  for (const gate of GATES) {
    const { before, assessed, points, spent, rework } = gates[gate]
    const hours = [before, assessed, spent, rework]
    if (!hours.every((value) => value >= 0 && Number.isFinite(value)))
      return `The hours of ${gate} are not numbers from 0 on. Correct them.`
    const fault = pointsFault(points)
    if (fault !== null) return `The hours of ${gate} are ${fault}`
  }
  const isEstimated = GATES.some((gate) => gates[gate].assessed > 0)
  const isDone = GATES.every((gate) => gates[gate].isDone)
  return isEstimated || isDone ? null : 'It has no estimate yet. Estimate its gates.'
}

/**
 * What the gates after assessed of a repair that is not assessed take as a multiple of their estimate, for drawing each of
 * them around its own three points: a table over TABLE_SCORES. What the three points spread already is taken out of the
 * spread of the finished repairs. Null once it is assessed.
 */
export function hiddenMultipliers({ behind }: Pick<RepairBand, 'behind'>): ScoreTable | null {
  if (behind === null) return null
  const { parts, curve, ownDeviation } = behind
  const share = Math.min(1, ownDeviation / deviationOf(curve))
  const rest = narrowed(curve, Math.sqrt(1 - share * share))
  return TABLE_LIKELIHOODS.map((likelihood) => Math.exp(mixtureLog(parts, rest, likelihood)))
}

/** Nothing is hidden: it is what it looks like. */
const SOLID: Way = { likelihood: { mean: 1 }, multiple: 1, unsure: 1 }

type Way = Pick<LikelyGrade, 'multiple' | 'unsure'> & { readonly likelihood: Pick<Proportion, 'mean'> }

const pointOf = ({ gates }: RepairToEstimate): WorkPoint => ({
  done: GATES.filter((gate) => gates[gate].isDone),
})

/** Hours before the gate was passed first. */
const firstSpent = ({ spent, rework }: GateToEstimate): number => Math.max(0, spent - rework)

const sumBy = (
  { gates }: RepairToEstimate,
  some: readonly Gate[],
  hoursOf: (gate: GateToEstimate) => number,
): number => some.reduce((sum, gate) => sum + hoursOf(gates[gate]), 0)

/**
 * Before it is assessed, what the figures say now is what is said from outside. Hours that were taken count as what people
 * would have estimated; a figure that was changed since is a judgement of its own.
 */
function estimatedGates({ gates, taken }: RepairToEstimate, isAssessed: boolean): EstimatedGates {
  const over = taken?.over ?? 1
  return eachGate((gate) => {
    const { before, assessed } = gates[gate]
    const now = assessed === before ? before / over : assessed
    return { before: isAssessed ? before / over : now, assessed: now }
  })
}

/** How much wider hours lie for not knowing the size: 1 where somebody estimated it. */
const unsureOfSize = ({ taken }: RepairToEstimate, curve: RatioCurve): number =>
  taken === null ? 1 : Math.hypot(1, taken.deviation / deviationOf(curve))

function likelyGrades(
  { multiples }: EstimateHistory,
  worst: HiddenGrades | null,
  known: Grade | null,
): readonly LikelyGrade[] {
  if (known !== null) return [{ ...multiples[known], grade: known, likelihood: CERTAIN, found: 0 }]
  return (worst?.grades ?? []).map((each) => ({ ...multiples[each.grade], ...each }))
}

const CERTAIN: Proportion = { mean: 1, low: 1, high: 1 }

/**
 * The rest that is not exceeded with a likelihood, given that it is more than `more`: of all repairs that take more. Beyond
 * what has ever been taken it goes on as steeply as the curve ends: what is not finished takes more still.
 */
function restAt(parts: readonly Part[], curve: RatioCurve, more: number): (likelihood: number) => number {
  const gone = more > 0 ? Math.min(ALMOST_ALL, mixtureCdf(parts, curve, Math.log(more))) : 0
  if (gone < ALMOST_NONE)
    return (likelihood) => Math.max(more, Math.exp(mixtureLog(parts, curve, likelihood)))
  const from = mixtureLog(parts, curve, gone)
  return (likelihood) =>
    more * Math.exp(Math.max(0, mixtureLog(parts, curve, gone + (1 - gone) * likelihood) - from))
}

const ALMOST_NONE = 1e-6
/** Beyond it the curve is a guess. */
const ALMOST_ALL = 0.999

function spentBand(repair: RepairToEstimate, spent: number, isFinished: boolean): RepairBand {
  return {
    stage: isFinished ? 'finished' : isAssessedAt(pointOf(repair)) ? 'assessed' : 'before assessed',
    method: 'spent',
    estimate: sumBy(repair, GATES, ({ assessed }) => assessed),
    spent,
    correlation: 0,
    hours: { p50: spent, p80: spent, p90: spent },
    mean: spent,
    table: TABLE_LIKELIHOODS.map(() => spent),
    hidden: [],
    rests: { own: 0, others: 0 },
    prior: null,
    words: [
      isFinished ? 'It is finished: these are its hours.' : 'What is open has no hours in its estimate.',
    ],
    behind: null,
  }
}

function behindOf(repair: RepairToEstimate, ways: readonly Way[], { curve }: LearnedPoint): BehindMultiples {
  const points = GATES.filter(isBehind).map((gate) => repair.gates[gate].points)
  const over = Math.log(repair.taken?.over ?? 1)
  const sizes = unsureOfSize(repair, curve)
  return {
    parts: ways.map(({ likelihood, multiple, unsure }) => ({
      weight: likelihood.mean,
      log: Math.log(multiple) - over,
      spread: unsure * sizes,
    })),
    curve,
    ownDeviation: sumDeviation(points, REPAIR_CORRELATION),
  }
}
