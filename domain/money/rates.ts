import type { CarState } from '../car.ts'
import type { RateTable } from '../facts/money-facts.ts'
import type { WorkTarget } from '../facts/shapes.ts'

/**
 * The rates that hold on a day: those of the latest table that begins on it or before.
 *
 * @param rates by the date from which they hold, earliest first
 * @param date local date, YYYY-MM-DD
 * @returns null when none is set for that day
 */
export const ratesInForce = (rates: readonly RateTable[], date: string): RateTable | null =>
  rates.findLast(({ from }) => from <= date) ?? null

/**
 * What a person-hour costs on a day: the rate of the skill that the work asks for, else the usual one.
 *
 * @returns minor units of the currency; null when no rate is set for that day
 */
export function rateOn(rates: readonly RateTable[], date: string, skill: string): number | null {
  const table = ratesInForce(rates, date)
  if (table === null) return null
  return table.bySkill.find((each) => each.skill === skill)?.perHour ?? table.usual
}

/** The skill that a gate or task asks for; one that no rate is set for when the car does not know it. */
export function skillOf(car: CarState, target: WorkTarget): string {
  const plan =
    target.kind === 'gate'
      ? car.repairs.get(target.repairId)?.plan.gates[target.gate]
      : car.tasks.get(target.taskId)?.plan
  return plan?.skill ?? ''
}
