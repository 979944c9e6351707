import type { RepairPlan, ThreePoint } from '../facts/shapes.ts'
import { type Gate, GATES } from '../gates.ts'
import { meanOf } from './log-ratios.ts'
import type { FinishedRepair } from './finished-repair.ts'
import { OWN_JOBS_FROM } from './learned-ratios.ts'
import { smoothOrderStatistic } from './order-statistic.ts'

/** What the gates of a type took in finished repairs, rework among it, as three points to estimate the next one by. */
export interface LearnedHours {
  /** Finished repairs that they rest on. */
  readonly repairs: number
  /** Person-hours; without gates that too few of them needed. */
  readonly gates: ReadonlyMap<Gate, ThreePoint>
}

/**
 * Null with fewer than OWN_JOBS_FROM of them: then the type's own hours say more. Of each gate that as many needed the
 * shortest and longest are what one in twenty stayed at or under and nineteen in twenty did, and the likeliest makes the
 * expected (a + 4m + b)/6 the mean that they took, as near as it can lie between the two.
 *
 * @param own finished repairs of the type, in the order of finishing
 */
export function learnedHours(own: readonly FinishedRepair[]): LearnedHours | null {
  const recent = own.slice(-MOST_REPAIRS)
  if (recent.length < OWN_JOBS_FROM) return null
  const gates = GATES.flatMap((gate) => {
    const hours = recent.map((repair) => repair.gates[gate].actual).filter((each) => each > 0)
    return hours.length < OWN_JOBS_FROM ? [] : [[gate, pointsOf(hours)] as const]
  })
  return gates.length === 0 ? null : { repairs: recent.length, gates: new Map(gates) }
}

/** A type's plan with these hours; gates that nothing was learned of keep the type's. */
export function withLearnedHours(plan: RepairPlan, { gates }: LearnedHours): RepairPlan {
  const learned = GATES.map((gate) => [
    gate,
    { ...plan.gates[gate], hours: gates.get(gate) ?? plan.gates[gate].hours },
  ])
  return { ...plan, gates: Object.fromEntries(learned) as RepairPlan['gates'] }
}

/** Older ones tell how the workshop worked then. */
const MOST_REPAIRS = 50
const LOW = 0.05
const HIGH = 0.95

function pointsOf(hours: readonly number[]): ThreePoint {
  const ascending = hours.toSorted((a, b) => a - b)
  const shortest = toQuarters(smoothOrderStatistic(ascending, LOW))
  const longest = Math.max(shortest, toQuarters(smoothOrderStatistic(ascending, HIGH)))
  const likely = toQuarters((6 * meanOf(hours) - shortest - longest) / 4)
  return { shortest, likely: Math.min(longest, Math.max(shortest, likely)), longest }
}

/** As hours are estimated in: quarters, and never none. */
const toQuarters = (hours: number): number => Math.max(0.25, Math.round(hours * 4) / 4)
