import { localToInstant } from '../domain/time/zone.ts'

export interface ClockOptions {
  /** Day that the demo is shown on, YYYY-MM-DD; the real day when undefined. */
  readonly today: string | undefined
  readonly clock?: () => number
}

/** A time of the day at which people are at work. */
const DEMO_TIME = '10:40'

/**
 * The host's clock in epoch milliseconds. For a demo shown on another day it starts at 10:40 of that day in the demo's
 * zone and runs on from there.
 *
 * @param zone the demo's
 */
export function createHostClock({ today, clock = Date.now }: ClockOptions, zone: string): () => number {
  if (today === undefined) return clock
  const shift = localToInstant(today, DEMO_TIME, zone) - clock()
  return () => clock() + shift
}
