import { type Gate } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { REPAIR_CORRELATION } from '../plan/likelihood/prior.ts'
import { carCorrelation, logsByCar } from './car-correlation.ts'
import { type FinishedTable, placesOf, sumAt, type TypeRows } from './finished-table.ts'
import { type LearnedRatios, learnRatios } from './learned-ratios.ts'
import { meanOf, USUAL_PRIOR } from './log-ratios.ts'
import { curveOf, type RatioCurve } from './ratio-curve.ts'
import {
  carriedOf,
  type ExpectedBy,
  isAssessedAt,
  isBehind,
  openAt,
  slopeOfUnknown,
  usualAt,
  type WorkPoint,
} from './work-point.ts'

/** How repairs go on from a point of their work, as finished ones tell it. */
export interface LearnedPoint {
  readonly ratios: LearnedRatios
  readonly curve: RatioCurve
  /** Between repairs of one car from here on, 0 to below 1. */
  readonly correlation: number
  /** How much of the overrun of the gates done after assessed the rest follows. */
  readonly slope: number
}

/** Finished repairs as later ones are learned from them. */
export interface ToldRepairs {
  readonly table: FinishedTable
  /** Without those whose hours were taken from finished repairs. */
  readonly types: readonly TypeRows[]
  /** By row, which car it is on, counted from 0. */
  readonly carOf: Int32Array
  /** By row, what its gates after assessed took for their first estimate, as far as what it hid explains it. */
  readonly multiples: Float64Array
}

export function learnPoint(told: ToldRepairs, point: WorkPoint): (typeId: TypeId | null) => LearnedPoint {
  const went = told.types.map(({ typeId, rows }) => ({ typeId, ...wentOnFrom(point, told, rows) }))
  const slope = carriedSlope(went, point.done.filter(isBehind).length)
  const types = went.map(({ typeId, cars, rest, carried }) => ({
    typeId,
    cars,
    // What is left of the rest once it follows the gates done.
    logs: rest.map((log, at) => log - slope * (carried[at] as number)),
  }))
  const byCar = logsByCar(types)
  const correlation = carCorrelation(byCar, slope)
  return (typeId) => {
    const own = typeId === null ? undefined : types.find((type) => type.typeId === typeId)
    const ratios = learnRatios(
      own?.logs ?? [],
      types.filter((type) => type !== own).map(({ logs }) => logs),
      usualAt(point),
      { cars: Math.max(1, byCar.length), correlation },
    )
    return {
      ratios,
      curve: curveOf(ratios),
      correlation,
      slope: slopeOfUnknown(slope, ratios.rests.own + ratios.rests.others),
    }
  }
}

/** How finished repairs of a type went on, one entry each. Logarithms of actual / expected. */
interface WentOn {
  /** Of the gates after assessed that were done; 0 where there were none. */
  readonly carried: readonly number[]
  /** Of the rest: the gates that were not done, and what was to come of rework on the others. */
  readonly rest: readonly number[]
  readonly cars: readonly number[]
}

/** Without those of which nothing was expected of the rest or nothing was spent on it. */
function wentOnFrom(point: WorkPoint, { table, carOf, multiples }: ToldRepairs, rows: Int32Array): WentOn {
  const { done } = point
  const open = openAt(point)
  const isAssessed = isAssessedAt(point)
  const [openPlaces, donePlaces] = [expectedPlaces(open), expectedPlaces(done.filter(isBehind))]
  const [openSpent, doneSpent] = [placesOf('actual', open), placesOf('actual', done.filter(isBehind))]
  const [reworkDone, reworkBehind] = [placesOf('rework', done), placesOf('rework', done.filter(isBehind))]
  const [carried, rest, cars]: [number[], number[], number[]] = [[], [], []]
  for (const row of rows) {
    const multiple = multiples[row] as number
    const pricedAgain = isAssessed && table.columns.pricedAgain[row] === 1
    const by = { multiple, pricedAgain }
    const expected = expectedAt(table, row, openPlaces, by)
    const spent = sumAt(table, row, openSpent) + sumAt(table, row, reworkDone)
    if (!(expected > 0) || !(spent > 0)) continue
    const spentDone = sumAt(table, row, doneSpent) - sumAt(table, row, reworkBehind)
    carried.push(carriedOf(spentDone, expectedAt(table, row, donePlaces, by)))
    rest.push(Math.log(spent / expected))
    cars.push(carOf[row] as number)
  }
  return { carried, rest, cars }
}

/** Where the estimates of some gates stand. */
interface ExpectedPlaces {
  readonly ahead: readonly number[]
  readonly behind: readonly number[]
  readonly assessed: readonly number[]
}

export const expectedPlaces = (gates: readonly Gate[]): ExpectedPlaces => ({
  ahead: placesOf(
    'before',
    gates.filter((gate) => !isBehind(gate)),
  ),
  behind: placesOf('before', gates.filter(isBehind)),
  assessed: placesOf('assessed', gates),
})

/** What `expectedOf` says of a repair, of a row. */
export function expectedAt(
  table: FinishedTable,
  row: number,
  { ahead, behind, assessed }: ExpectedPlaces,
  { multiple, pricedAgain }: ExpectedBy,
): number {
  return pricedAgain
    ? sumAt(table, row, assessed)
    : sumAt(table, row, ahead) + multiple * sumAt(table, row, behind)
}

/**
 * How much of that the rest follows: the slope of the one over the other within types, shrunk to what gates of one repair
 * have in common when nothing is known (the correlation of the gates over the correlation of a mean of `gates` of them).
 */
function carriedSlope(types: readonly WentOn[], gates: number): number {
  if (gates === 0) return 0
  const prior = REPAIR_CORRELATION / (REPAIR_CORRELATION + (1 - REPAIR_CORRELATION) / gates)
  let [products, squares] = [prior * PRIOR_SQUARES, PRIOR_SQUARES]
  for (const { carried, rest } of types) {
    const [meanCarried, meanRest] = [meanOf(carried), meanOf(rest)]
    for (let at = 0; at < carried.length; at += 1) {
      const apart = (carried[at] as number) - meanCarried
      products += apart * ((rest[at] as number) - meanRest)
      squares += apart * apart
    }
  }
  return Math.max(0, products / squares)
}

/** Ten repairs whose gates vary as the usual prior says. */
const PRIOR_SQUARES = 10 * USUAL_PRIOR.scale
