import type { RepairPlan, ThreePoint } from '../facts/shapes.ts'
import { type Gate, GATES } from '../gates.ts'
import type { FinishedRepair } from './finished-repair.ts'
import { ORDER_STATISTIC_FROM, OWN_JOBS_FROM } from './learned-ratios.ts'
import { learnLogRatios, meanOf, nextRatio, USUAL_PRIOR } from './log-ratios.ts'
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
 * shortest and longest are what one in twenty of the next ones stays at or under and nineteen in twenty do, learned as bands
 * are; the likeliest makes the expected (a + 4m + b)/6 the mean that they took, as near as it can lie between the two.
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
  const mean = meanOf(hours)
  const [shortest, longest] = rangeOf(hours.map((each) => Math.log(each / mean))).map((log) =>
    toQuarters(mean * Math.exp(log)),
  ) as [number, number]
  const likely = toQuarters((6 * mean - shortest - longest) / 4)
  return { shortest, likely: Math.min(longest, Math.max(shortest, likely)), longest }
}

/** Few repairs leave more open than the range that they happened to lie in. */
function rangeOf(logs: readonly number[]): readonly [number, number] {
  if (logs.length >= ORDER_STATISTIC_FROM) {
    const ascending = logs.toSorted((a, b) => a - b)
    return [smoothOrderStatistic(ascending, LOW), smoothOrderStatistic(ascending, HIGH)]
  }
  const belief = learnLogRatios(USUAL_PRIOR, logs)
  return [Math.log(nextRatio(belief, LOW)), Math.log(nextRatio(belief, HIGH))]
}

/** As hours are estimated in: quarters, and never none. */
const toQuarters = (hours: number): number => Math.max(0.25, Math.round(hours * 4) / 4)
