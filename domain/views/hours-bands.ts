import type { CarState, RepairState, VisitState } from '../car.ts'
import { carBand, type CarWork, USUAL_DRAWS } from '../estimate/car-band.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import { repairBand, type RepairBand } from '../estimate/repair-band.ts'
import { repairToEstimate } from '../estimate/repair-to-estimate.ts'
import { TABLE_LIKELIHOODS } from '../estimate/score-table.ts'
import type { RepairId, TaskId } from '../ids.ts'
import { hoursLeft, wholePoints } from '../plan/build/hours-left.ts'
import { isFinished } from '../rules/standing.ts'
import { pertQuantile } from '../statistics/pert-quantiles.ts'
import type { HoursContext } from '../value/entry-hours.ts'
import type { TargetFigures } from '../value/hours.ts'
import type { HoursBand } from './hours-sheet-shapes.ts'

/**
 * What an open gate or task takes with what is spent: around what is said to be left of it, or else around what its estimate
 * leaves to expect, as wide as its three points. Null once it is done and where nothing is estimated.
 */
export function targetBand(
  car: CarState,
  { target, standing, hours: { spent } }: TargetFigures,
  context: HoursContext,
): HoursBand | null {
  if (standing !== 'open') return null
  const { points } = hoursLeft(car, target, context)
  if (!(points.longest > 0)) return null
  return { p50: spent + pertQuantile(points, 0.5), p80: spent + pertQuantile(points, 0.8) }
}

/** A repair or task as it goes into the band of the car, and of each who pays a share of it. */
export interface BandPiece {
  readonly isOpen: boolean
  readonly work: CarWork
}

/**
 * A repair as finished ones tell it, hidden layers among it. Null for one that is over, for one of a visit of another
 * workshop, and for one that an earlier visit began: its band would hold the hours of both.
 */
export function bandOfRepair(
  car: CarState,
  repair: RepairState,
  visit: VisitState,
  history: EstimateHistory,
  context: HoursContext,
): RepairBand | null {
  if (visit.from !== null || repair.visitId !== visit.id) return null
  if (repair.retired !== null || isFinished(repair)) return null
  const band = repairBand(history, repairToEstimate(car, repair, 'repairs', context))
  return band === null || band.method === 'spent' ? null : band
}

/** @param expected person-hours that a repair without a band counts as */
export function repairPiece(repairId: RepairId, band: RepairBand | null, expected: number): BandPiece {
  const known = band ?? { mean: expected, table: TABLE_LIKELIHOODS.map(() => expected), correlation: 0 }
  return { isOpen: band !== null, work: { repairs: [{ repairId, band: known }], tasks: [] } }
}

export function taskPiece(car: CarState, taskId: TaskId, { standing, hours }: TargetFigures): BandPiece {
  const isOpen = standing === 'open'
  const points = wholePoints(car, { kind: 'task', taskId })
  return { isOpen, work: { repairs: [], tasks: [{ taskId, points, isDone: !isOpen, spent: hours.spent }] } }
}

/** A payer's part of a piece, 0 to 1. */
export function pieceShare({ isOpen, work }: BandPiece, share: number): BandPiece {
  return {
    isOpen,
    work: {
      repairs: work.repairs.map(({ repairId, band }) => ({
        repairId,
        band: { ...band, mean: band.mean * share, table: band.table.map((hours) => hours * share) },
      })),
      tasks: work.tasks.map((task) => ({
        ...task,
        spent: task.spent * share,
        points: {
          shortest: task.points.shortest * share,
          likely: task.points.likely * share,
          longest: task.points.longest * share,
        },
      })),
    },
  }
}

/** The sum of the pieces; null where all of them are over. */
export function bandOfPieces(
  pieces: readonly BandPiece[],
  { correlation }: EstimateHistory,
): HoursBand | null {
  if (!pieces.some(({ isOpen }) => isOpen)) return null
  const work = {
    repairs: pieces.flatMap((piece) => piece.work.repairs),
    tasks: pieces.flatMap((piece) => piece.work.tasks),
  }
  return onlyBand(carBand(work, { ...USUAL_DRAWS, correlation }))
}

export const onlyBand = (band: { readonly hours: HoursBand } | null): HoursBand | null =>
  band && { p50: band.hours.p50, p80: band.hours.p80 }
