import type { WorkingWeek } from '../../facts/shapes.ts'
import { hasSkill } from '../../rules/work-holds.ts'
import { addDays } from '../../time/local-date.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { PlanInput } from '../plan-input.ts'
import type { DraftWork } from './draft-work.ts'
import type { EarliestStart } from './earliest.ts'
import type { TickScale } from './tick-scale.ts'
import { TICKS_PER_HOUR } from './tick-scale.ts'
import { MOST_HOURS } from './work-faults.ts'

const LEAST_DAYS = 184
const MOST_DAYS = 3 * 365
/** How many times over all work has to fit. */
const ROOM = 3

/**
 * The last local date that is planned: time for all work several times over, whether people, one skill or the bays are
 * short, from the last day that anything waits for; at least half a year, at most three.
 */
export function lastPlannedDate(
  { workshop }: PlanInput,
  work: readonly DraftWork[],
  earliest: readonly (readonly EarliestStart[])[],
  scale: TickScale,
): string {
  const waits = Math.max(0, ...earliest.flat().map(({ tick }) => tick)) / (24 * TICKS_PER_HOUR)
  const busy = Math.max(...skillWeeks(workshop, work), bayWeeks(workshop, work)) * 7
  const days = Math.ceil(waits + ROOM * busy + LEAST_DAYS)
  return addDays(scale.today, Number.isFinite(days) ? Math.min(MOST_DAYS, days) : MOST_DAYS)
}

function skillWeeks({ people, week }: WorkshopState, work: readonly DraftWork[]): readonly number[] {
  return [...Map.groupBy(work, ({ plan }) => plan.skill)].map(([skill, own]) => {
    const hours = own.reduce((sum, { left }) => sum + believable(left.hours), 0)
    const weekly = [...people.values()]
      .filter((person) => person.active && hasSkill(person, skill))
      .reduce((sum, person) => sum + weekHours(person.week ?? week), 0)
    return weekly === 0 ? 0 : hours / weekly
  })
}

/** As if every car's work went on one piece after another in its bay, curing at night. */
function bayWeeks({ bays, week }: WorkshopState, work: readonly DraftWork[]): number {
  const hours = work.reduce(
    (sum, { left, plan }) => sum + believable(left.hours) / plan.people + plan.cureHours / CURE_DAY,
    0,
  )
  const weekly = weekHours(week) * Math.max(1, [...bays.values()].filter(({ active }) => active).length - 1)
  return weekly === 0 ? 0 : hours / weekly
}

/** Clock hours of curing that cost about an hour of a working day: most of it is night. */
const CURE_DAY = 3

/** Absurd hours are named and left out; they do not stretch the horizon. */
const believable = (hours: number): number =>
  Number.isFinite(hours) ? Math.min(Math.max(0, hours), MOST_HOURS) : 0

const weekHours = (week: WorkingWeek): number =>
  week.flat().reduce((sum, { from, to }) => sum + hoursOf(to) - hoursOf(from), 0)

const hoursOf = (time: string): number => {
  const [hours = 0, minutes = 0] = time.split(':').map(Number)
  return hours + minutes / 60
}
