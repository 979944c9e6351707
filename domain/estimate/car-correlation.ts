import { spreadBetween, spreadWithin, USUAL_PRIOR } from './log-ratios.ts'

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

/** How the finished repairs of a type ended against what was expected of them. */
export interface TypeLogs {
  readonly logs: readonly number[]
  /** By repair, which car it is on, counted from 0 over all types. */
  readonly cars: readonly number[]
}

/**
 * Logarithms around the mean of their type, by car, all types drawn to the spread of the usual prior: a type that varies more
 * shall not decide alone how alike the repairs of a car are.
 */
export function logsByCar(types: readonly TypeLogs[]): readonly (readonly number[])[] {
  const byCar: number[][] = []
  for (const { logs, cars } of types) {
    const mean = logs.reduce((sum, log) => sum + log, 0) / (logs.length + TYPE_REPAIRS)
    const scale = Math.sqrt(USUAL_PRIOR.scale / spreadWithin([logs]))
    for (let at = 0; at < logs.length; at += 1) {
      const own = (byCar[cars[at] as number] ??= [])
      own.push(((logs[at] as number) - mean) * scale)
    }
  }
  return byCar.filter((own) => own !== undefined)
}

/** The belief that a type's estimates are right in the mean, in finished repairs. */
const TYPE_REPAIRS = 2
