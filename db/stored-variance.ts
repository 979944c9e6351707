import type { Handle } from './handle.ts'
import { plannedAmount, varianceDay, varianceSum, varianceVisit } from './schema.ts'
import type { AmountRow, VarianceRows } from './variance-rows.ts'

/** All rows of a car in the tables of the Variance screen, by key, to be compared. */
export type VarianceOfCar = ReadonlyMap<string, object>

/** Of a car without hours. */
export const NO_VARIANCE: VarianceOfCar = new Map()

/** Rows of one car by keys that no two of them share. */
export function toVarianceOfCar(
  amounts: readonly AmountRow[],
  { sums, visits, days }: VarianceRows,
): VarianceOfCar {
  return new Map<string, object>([
    ...amounts.map((row) => [`amount ${row.amountId}`, { ...row }] as const),
    ...sums.map((row) => [`sum ${row.visitId} ${row.grouping} ${row.key}`, { ...row }] as const),
    ...visits.map((row) => [`visit ${row.visitId}`, { ...row }] as const),
    ...days.map((row) => [`day ${row.visitId} ${row.date}`, { ...row }] as const),
  ])
}

/** Everything that those tables hold, by car. */
export function readVariance({ orm }: Handle): ReadonlyMap<string, VarianceOfCar> {
  const amounts = Map.groupBy(orm.select().from(plannedAmount).all(), ({ carId }) => carId)
  const sums = Map.groupBy(orm.select().from(varianceSum).all(), ({ carId }) => carId)
  const visits = Map.groupBy(orm.select().from(varianceVisit).all(), ({ carId }) => carId)
  const days = Map.groupBy(orm.select().from(varianceDay).all(), ({ carId }) => carId)
  const carIds = new Set([...amounts.keys(), ...sums.keys(), ...visits.keys(), ...days.keys()])
  return new Map(
    [...carIds].map((carId) => [
      carId,
      toVarianceOfCar(amounts.get(carId) ?? [], {
        sums: sums.get(carId) ?? [],
        visits: visits.get(carId) ?? [],
        days: days.get(carId) ?? [],
      }),
    ]),
  )
}
