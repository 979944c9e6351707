import { spreadBetween, spreadWithin } from './log-ratios.ts'

/**
 * How alike the repairs of one car turn out against what was expected of each: the same rust, the same access, the same
 * estimator. Invented for want of a source; worth PRIOR_CARS cars.
 */
export const CAR_CORRELATION_PRIOR = 0.2
const PRIOR_CARS = 5
/** Above it one repair would tell all of a car, which no workshop has seen. */
const MOST = 0.9

/**
 * Correlation of the logarithms of actual / expected hours between repairs of one car: the share of the variance that lies
 * between cars (one-way analysis of variance; Searle, Casella & McCulloch 1992, ch. 3), shrunk towards the prior by how
 * many cars tell of it. 0 to below 1.
 *
 * @param cars logarithms of the finished repairs, one list each car
 * @param told how much of what a car's repairs have in common its gates done have told already, 0 to 1
 */
export function carCorrelation(cars: readonly (readonly number[])[], told = 0): number {
  const prior = CAR_CORRELATION_PRIOR * (1 - told) ** 2
  const telling = cars.filter((logs) => logs.length > 1)
  if (telling.length === 0) return prior
  const within = spreadWithin(telling)
  const between = spreadBetween(telling, within)
  const seen = between / (between + within)
  const shrunk = (PRIOR_CARS * prior + telling.length * seen) / (PRIOR_CARS + telling.length)
  return Math.min(MOST, shrunk)
}
