import { valueAtScore } from '../../estimate/score-table.ts'
import type { ThreePoint } from '../../facts/shapes.ts'
import { expectedHours } from '../../value/estimated-hours.ts'
import type { Activity } from '../problem.ts'
import { createRandom, type Random } from '../solve/random.ts'
import type { Duration } from './durations.ts'
import { normalScores } from '../../statistics/normal.ts'
import { REPAIR_CORRELATION } from './prior.ts'
import { FAR, fillQuantiles, STEPS, TABLE_LENGTH } from '../../statistics/pert-quantiles.ts'

export interface DrawOptions {
  readonly samples: number
  readonly seed: number
}

/** Fills one entry a sample with the work of an activity, in whole ticks; the same whenever it is asked for. */
export type Draw = (activity: number, work: Int32Array) => void

/**
 * Sampled work. Draws are stratified (Latin hypercube sampling; McKay, Beckman & Conover 1979): each of as many equally
 * likely parts of a distribution as there are samples is drawn from once. The gates of one repair are correlated through
 * their normal scores. What an activity draws depends on the seed and its own and its repair's number only, so that two
 * plans of the same work are compared on the same draws.
 */
export function createDraw(
  activities: readonly Activity[],
  durations: readonly Duration[],
  { samples, seed }: DrawOptions,
): Draw {
  const scores = normalScores(samples)
  const own = new Float64Array(samples)
  const table = new Float64Array(TABLE_LENGTH)
  const luckOf = perRepair((repair) => shuffled(scores, stream(seed, 3 * repair + 1)))
  const damageOf = perRepair((repair) => shuffled(scores, stream(seed, 3 * repair + 2)))
  const members = Map.groupBy(activities, ({ repair }) => repair)
  const sharedWeight = (repair: number): number =>
    (members.get(repair)?.length ?? 0) > 1 ? Math.sqrt(REPAIR_CORRELATION) : 0

  return (activity, work) => {
    const { work: planned, repair } = activities[activity] as Activity
    const duration = durations[activity] as Duration
    if (planned === 0 || (isSure(duration) && duration.hidden === null)) {
      work.fill(planned)
      return
    }
    const points = expectedHours(duration) > 0 ? duration : CERTAIN
    fillQuantiles(table, points)
    const scale = planned / expectedHours(points)
    own.set(scores)
    shuffle(own, stream(seed, 3 * activity))
    const luck = luckOf(repair)
    const luckWeight = sharedWeight(repair)
    const ownWeight = Math.sqrt(1 - luckWeight * luckWeight)
    const { hidden } = duration
    const damage = hidden === null ? null : damageOf(repair)
    for (let sample = 0; sample < samples; sample += 1) {
      const score = luckWeight * (luck[sample] as number) + ownWeight * (own[sample] as number)
      const multiple = hidden === null || damage === null ? 1 : valueAtScore(hidden, damage[sample] as number)
      work[sample] = Math.max(1, Math.round(readAt(table, score) * multiple * scale))
    }
  }
}

/** Three points without hours tell nothing of how sure the work is. */
const CERTAIN: ThreePoint = { shortest: 1, likely: 1, longest: 1 }

const isSure = ({ shortest, longest }: ThreePoint): boolean => shortest === longest

const readAt = (table: Float64Array, score: number): number => {
  const place = Math.min(TABLE_LENGTH - 1, Math.max(0, (score + FAR) * STEPS))
  const lower = Math.min(TABLE_LENGTH - 2, Math.floor(place))
  const value = table[lower] as number
  return value + (place - lower) * ((table[lower + 1] as number) - value)
}

const perRepair = (make: (repair: number) => Float64Array): ((repair: number) => Float64Array) => {
  const made = new Map<number, Float64Array>()
  return (repair) => {
    const known = made.get(repair) ?? make(repair)
    made.set(repair, known)
    return known
  }
}

const shuffled = (values: Float64Array, random: Random): Float64Array => {
  const copy = values.slice()
  shuffle(copy, random)
  return copy
}

/** Fisher and Yates. */
function shuffle(values: Float64Array, random: Random): void {
  for (let last = values.length - 1; last > 0; last -= 1) {
    const other = random.below(last + 1)
    const value = values[last] as number
    values[last] = values[other] as number
    values[other] = value
  }
}

/** A generator of its own for each number; the factors are odd and large, so that streams begin far apart. */
const stream = (seed: number, number: number): Random =>
  createRandom(Math.imul(seed, 0x9e37_79b1) ^ Math.imul(number + 1, 0x85eb_ca6b))
