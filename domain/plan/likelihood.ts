import { createDraw, type DrawOptions } from './likelihood/draws.ts'
import { allBefore, deviationsOf, type Driver, driversOf, repairsBefore } from './likelihood/drivers.ts'
import type { Duration } from './likelihood/durations.ts'
import { freezeOrder } from './likelihood/frozen-order.ts'
import { replay } from './likelihood/replay.ts'
import type { Activity, Problem } from './problem.ts'
import type { Schedule } from './schedule.ts'

/** How sure a car's finish is. Ticks; tails included. */
export interface FinishLikelihood {
  /** Not exceeded with 50 and with 80 %: the smallest sampled finish that so many samples do not exceed. */
  readonly finish50: number
  readonly finish80: number
  /** Share of samples that finish after the promised date, 0 to 1; null when nothing is promised. */
  readonly late: number | null
  /** What makes the finish unsure, largest first, at most three. */
  readonly drivers: readonly Driver[]
}

/**
 * When each car will be done if its work takes as long as it may: the plan's order played through with sampled work. Each
 * sample counts by how much later or sooner it ends than the same play with the planned work, so that work without any
 * doubt ends as planned. By car; null for a car without work, or of which some work is not placed. Calendars go on past
 * the horizon with their last week. The same for the same seed.
 *
 * @param durations by activity
 */
export function finishLikelihood(
  problem: Problem,
  schedule: Schedule,
  durations: readonly Duration[],
  options: DrawOptions,
): readonly (FinishLikelihood | null)[] {
  const { activities, cars } = problem
  const { samples } = options
  const frozen = freezeOrder(problem, schedule)
  const draw = createDraw(activities, durations, options)
  const repairWork = new Map<number, Float64Array>()
  const finishesOf = replay(problem, frozen, samples + 1, (activity, work) => {
    const { repair, work: planned } = activities[activity] as Activity
    const sampled = work.subarray(0, samples)
    draw(activity, sampled)
    work[samples] = planned
    addTo(repairWork, repair, sampled)
  })
  const deviations = new Map([...repairWork].map(([repair, work]) => [repair, deviationsOf(work)]))
  const before = allBefore(frozen)
  const repairOf = (item: number): number | null => activities[item]?.repair ?? null
  const workOf = activitiesByCar(problem)
  return cars.map(({ due }, car) => {
    const own = workOf[car] ?? []
    const planned = plannedFinish(activities, own, schedule)
    if (planned === null) return null
    const finish = finishOfCar(activities, own, finishesOf, planned, samples)
    return {
      ...quantiles(finish),
      late: due === null ? null : lateShare(finish, due),
      drivers: driversOf(deviationsOf(finish), deviations, repairsBefore(before, repairOf, own)),
    }
  })
}

const activitiesByCar = ({ activities, cars }: Problem): readonly (readonly number[])[] => {
  const byCar = cars.map((): number[] => [])
  activities.forEach(({ car }, activity) => car !== null && byCar[car]?.push(activity))
  return byCar
}

function addTo(byRepair: Map<number, Float64Array>, repair: number, work: Int32Array): void {
  const sum = byRepair.get(repair) ?? new Float64Array(work.length)
  byRepair.set(repair, sum)
  for (let sample = 0; sample < work.length; sample += 1)
    sum[sample] = (sum[sample] as number) + (work[sample] as number)
}

/** Null for a car without work, or with work that is not placed. */
function plannedFinish(
  activities: readonly Activity[],
  own: readonly number[],
  { placed }: Schedule,
): number | null {
  const finishes = own.flatMap((activity) => {
    const placement = placed[activity] ?? null
    return placement === null ? [] : [placement.finish + (activities[activity] as Activity).tail]
  })
  return own.length === 0 || finishes.length < own.length ? null : Math.max(...finishes)
}

/** The last entry of each row was played with the planned work. */
function finishOfCar(
  activities: readonly Activity[],
  own: readonly number[],
  finishesOf: (activity: number) => Int32Array,
  planned: number,
  samples: number,
): Int32Array {
  const finish = new Int32Array(samples + 1)
  for (const activity of own) {
    const { tail } = activities[activity] as Activity
    const row = finishesOf(activity)
    for (let sample = 0; sample <= samples; sample += 1)
      finish[sample] = Math.max(finish[sample] as number, (row[sample] as number) + tail)
  }
  const shift = planned - (finish[samples] as number)
  return finish.subarray(0, samples).map((tick) => tick + shift)
}

function quantiles(finish: Int32Array): Pick<FinishLikelihood, 'finish50' | 'finish80'> {
  const sorted = finish.toSorted()
  // Whole percents, because a product of fractions may lie just above the whole number that is meant.
  const at = (percent: number): number => sorted[Math.ceil((percent * sorted.length) / 100) - 1] as number
  return { finish50: at(50), finish80: at(80) }
}

const lateShare = (finish: Int32Array, due: number): number =>
  finish.filter((tick) => tick > due).length / finish.length
