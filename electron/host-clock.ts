import { localToInstant } from '../domain/time/zone.ts'

export interface ClockOptions {
  /** Day that the demo is shown on, YYYY-MM-DD; the real day when undefined. */
  readonly today: string | undefined
  readonly clock?: () => number
}

export interface HostClock {
  /** Epoch milliseconds. */
  readonly now: () => number
  /** Goes on from this moment instead, in epoch milliseconds. */
  readonly goOnFrom: (moment: number) => void
}

/** A time of the day at which people are at work. */
export const DEMO_TIME = '10:40'

/**
 * The host's clock. For a demo shown on another day it starts at 10:40 of that day in the demo's zone and runs on from
 * there.
 *
 * @param zone the demo's
 */
export function createHostClock({ today, clock = Date.now }: ClockOptions, zone: string): HostClock {
  let shift = today === undefined ? 0 : localToInstant(today, DEMO_TIME, zone) - clock()
  return {
    now: () => clock() + shift,
    goOnFrom: (moment) => {
      shift = moment - clock()
    },
  }
}
