import type { PlanNames } from '../../domain/drawing/plan-rows.ts'
import type { CarId } from '../../domain/ids.ts'
import type { Plan, PlannedWork, StartReason } from '../../domain/plan/plan.ts'
import { plural } from '../../domain/text/words.ts'
import type { Figure } from '../parts/frame/screen-head.tsx'
import type { When } from '../parts/frame/when.tsx'
import { daysLate } from './plan-words.ts'

/** What the head of the screen says of the plan. */
export interface PlanHead {
  readonly figures: readonly Figure[]
  /** What holds the latest car most; null when no car is late. */
  readonly reason: string | null
}

/** How many cars are late with 80 %, the worst of them, and what holds it most. */
export function planHead(plan: Plan, names: PlanNames, when: When): PlanHead {
  const late = plan.cars
    .map((car) => ({ car, days: daysLate(car, when) }))
    .filter(({ days }) => days > 0)
    .toSorted((a, b) => b.days - a.days)
  const worst = late[0]
  if (worst === undefined) {
    const value = plan.cars.length === 0 ? 'no car planned' : 'none'
    return { figures: [{ label: 'late at 80 %', value, tone: 'passed' }], reason: null }
  }
  const { carId, drivers } = worst.car
  return {
    figures: [
      { label: 'late at 80 %', value: plural('car', late.length), tone: 'accent' },
      { label: 'latest', value: `${names.car(carId)}, ${plural('day', worst.days)}`, tone: 'accent' },
    ],
    reason: worstWait(plan.work, carId)?.why.words ?? driverWords(drivers[0]),
  }
}

/** Reasons that somebody can do something about; order, curing and working hours are as they are. */
const CAN_CHANGE: readonly StartReason[] = [
  'parts',
  'decision',
  'hold',
  'away',
  'people',
  'bay',
  'support',
  'fixture',
  'pinned',
]

/**
 * The piece of a car's work before which it stands still longest for a reason that can be changed; null when none does. A
 * car stands still while none of its work is under way.
 */
export function worstWait(work: readonly PlannedWork[], carId: CarId): PlannedWork | null {
  const inOrder = work.filter((each) => each.carId === carId).toSorted((a, b) => a.start - b.start)
  let busyUntil = inOrder[0]?.start ?? 0
  let worst: { readonly work: PlannedWork; readonly wait: number } | null = null
  for (const each of inOrder) {
    const wait = each.start - busyUntil
    if (CAN_CHANGE.includes(each.why.reason) && wait > (worst?.wait ?? -1)) worst = { work: each, wait }
    busyUntil = Math.max(busyUntil, each.finish)
  }
  return worst?.work ?? null
}

const driverWords = (driver: { readonly name: string } | undefined): string | null =>
  driver === undefined ? null : `the hours of ${driver.name} are least sure`
