import type { ThreePoint } from '../facts/shapes.ts'
import type { RepairId, TaskId } from '../ids.ts'
import { createRandom } from '../plan/solve/random.ts'
import { betaCdf, betaQuantile } from '../statistics/beta.ts'
import { normalScores } from '../statistics/normal.ts'
import { fillQuantiles, pertShape, FAR, STEPS, TABLE_LENGTH } from '../statistics/pert-quantiles.ts'
import type { OneSided } from './learned-ratios.ts'
import type { RepairBand } from './repair-band.ts'
import { meanOfTable, type ScoreTable, TABLE_LIKELIHOODS, TABLE_SCORES, valueAtScore } from './score-table.ts'
import { pointsFault } from './three-points.ts'

export interface CarWork {
  readonly repairs: readonly {
    readonly repairId: RepairId
    readonly band: Pick<RepairBand, 'mean' | 'table' | 'correlation'>
  }[]
  readonly tasks: readonly TaskToEstimate[]
}

/** Person-hours. */
export interface TaskToEstimate {
  readonly taskId: TaskId
  readonly points: ThreePoint
  readonly isDone: boolean
  readonly spent: number
}

/** What a car takes as a whole, with what is spent. Person-hours. */
export interface CarBand {
  readonly hours: OneSided
  readonly mean: number
  /** What moves it most, the largest share of its variance first; without what does not move it. */
  readonly movers: readonly Mover[]
  /** Tasks that do not count, and why. */
  readonly leftOut: readonly { readonly taskId: TaskId; readonly why: string }[]
}

export type Mover = { readonly share: number } & (
  | { readonly kind: 'repair'; readonly repairId: RepairId }
  | { readonly kind: 'task'; readonly taskId: TaskId }
)

export interface CarDraws {
  /** Of its tasks with the rest, 0 to below 1: as repairs have that are not assessed. Repairs bring their own. */
  readonly correlation: number
  readonly samples: number
  readonly seed: number
}

export const USUAL_DRAWS = { samples: 1000, seed: 1 } as const

/**
 * The sum of a car's repairs and tasks. Its pieces turn out alike in part: each is drawn by a score that shares one factor
 * with the others (one-factor normal copula; Li 2000), each from as many equally likely parts as there are samples, once
 * (Latin hypercube; McKay, Beckman & Conover 1979). The same for the same seed. Null for a car without work.
 */
export function carBand(work: CarWork, draws: CarDraws): CarBand | null {
  const faults = work.tasks.map((task) => ({ task, why: task.isDone ? null : pointsFault(task.points) }))
  const pieces = [
    ...work.repairs.map(({ repairId, band }): Piece => ({
      of: { kind: 'repair', repairId },
      ...band,
    })),
    ...faults.flatMap(({ task, why }) => (why === null ? [taskPiece(task, draws.correlation)] : [])),
  ]
  if (pieces.length === 0) return null
  const rows = drawRows(pieces, draws)
  const sums = sumsOf(rows, draws.samples)
  const ascending = sums.toSorted()
  // Whole percents, because a product of fractions may lie just above the whole number that is meant.
  const at = (percent: number): number => ascending[Math.ceil((percent * sums.length) / 100) - 1] as number
  return {
    hours: { p50: at(50), p80: at(80), p90: at(90) },
    mean: pieces.reduce((sum, { mean }) => sum + mean, 0),
    movers: moversOf(pieces, rows, sums),
    leftOut: faults.flatMap(({ task: { taskId }, why }) =>
      why === null ? [] : [{ taskId, why: `Its hours are ${why}` }],
    ),
  }
}

/** `correlation`: with other pieces that have as much in common with the car. */
interface Piece {
  readonly of: { kind: 'repair'; repairId: RepairId } | { kind: 'task'; taskId: TaskId }
  readonly mean: number
  readonly table: ScoreTable
  readonly correlation: number
}

function taskPiece({ taskId, points, isDone, spent }: TaskToEstimate, correlation: number): Piece {
  const table = isDone ? TABLE_LIKELIHOODS.map(() => spent) : taskTable(points, spent)
  return { of: { kind: 'task', taskId }, mean: meanOfTable(table), table, correlation }
}

/** The modified PERT beta of its three points, of which it is known once it is begun that it takes more than is spent. */
export function taskTable(points: ThreePoint, spent: number): ScoreTable {
  const { shortest, longest } = points
  const width = longest - shortest
  if (spent >= longest || width === 0) return TABLE_LIKELIHOODS.map(() => Math.max(spent, longest))
  if (spent <= shortest) {
    const quantiles = new Float64Array(TABLE_LENGTH)
    fillQuantiles(quantiles, points)
    return TABLE_SCORES.map((score) => quantiles[Math.round((score + FAR) * STEPS)] as number)
  }
  const shape = pertShape(points)
  const gone = betaCdf((spent - shortest) / width, shape)
  return TABLE_LIKELIHOODS.map((likelihood) =>
    Math.max(spent, shortest + width * betaQuantile(gone + (1 - gone) * likelihood, shape)),
  )
}

function drawRows(pieces: readonly Piece[], { samples, seed }: CarDraws): readonly Float64Array[] {
  const random = createRandom(seed)
  const common = scoresOf(samples)
  const own = common.slice()
  return pieces.map(({ table, correlation }) => {
    const [shared, apart] = [Math.sqrt(correlation), Math.sqrt(1 - correlation)]
    // Fisher and Yates; shuffling what is shuffled is as good as shuffling anew.
    for (let last = samples - 1; last > 0; last -= 1) {
      const other = random.below(last + 1)
      const score = own[last] as number
      own[last] = own[other] as number
      own[other] = score
    }
    return common.map((score, at) => valueAtScore(table, shared * score + apart * (own[at] as number)))
  })
}

const known = new Map<number, Float64Array>()

const scoresOf = (samples: number): Float64Array => {
  const scores = known.get(samples) ?? normalScores(samples)
  known.set(samples, scores)
  return scores
}

function sumsOf(rows: readonly Float64Array[], samples: number): Float64Array {
  const sums = new Float64Array(samples)
  for (const row of rows)
    for (let at = 0; at < samples; at += 1) sums[at] = (sums[at] as number) + (row[at] as number)
  return sums
}

/** A piece's share is its covariance with the sum by the sum's variance; the shares add up to 1. */
function moversOf(
  pieces: readonly Piece[],
  rows: readonly Float64Array[],
  sums: Float64Array,
): readonly Mover[] {
  const middle = meanOfRow(sums)
  const apart = sums.map((sum) => sum - middle)
  const variance = apart.reduce((total, each) => total + each * each, 0)
  if (variance === 0) return []
  return pieces
    .map(({ of }, index) => {
      const row = rows[index] as Float64Array
      const mean = meanOfRow(row)
      let product = 0
      for (let at = 0; at < row.length; at += 1)
        product += ((row[at] as number) - mean) * (apart[at] as number)
      return { ...of, share: product / variance }
    })
    .filter(({ share }) => share > 0)
    .toSorted((a, b) => b.share - a.share)
}

const meanOfRow = (row: Float64Array): number => row.reduce((sum, each) => sum + each, 0) / row.length
