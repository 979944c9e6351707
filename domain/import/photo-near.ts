import type { Moment } from '../car.ts'
import { MS_PER_DAY } from '../time/zone.ts'
import { FAR_MS } from './photo-candidates.ts'
import { takenAt, type ClockCorrection } from './photo-clock.ts'
import type { CardPhoto } from './photo-match-shapes.ts'

/** Whether a span lies on a day that matters; one that does not may be passed over. */
export type IsNear = (from: Moment, to: Moment) => boolean

/**
 * Of ten years of work only the days of the photos are looked at. By days and not from the first photo to the last: one
 * photo of a camera that was reset would span them all.
 */
export function nearTo(
  photos: readonly CardPhoto[],
  correction: ClockCorrection | null,
  zone: string,
): IsNear {
  const days = new Set(
    photos.flatMap(({ camera }) => {
      const at = camera === null ? undefined : takenAt(camera, correction, zone)?.at
      return at === undefined ? [] : [dayOf(at - FAR_MS), dayOf(at + FAR_MS)]
    }),
  )
  return (from, to) => {
    const last = dayOf(to)
    for (let day = dayOf(from); day <= last; day++) if (days.has(day)) return true
    return false
  }
}

/** Days of UTC, numbered: they only part what is near from what is not. */
const dayOf = (at: Moment): number => Math.floor(at / MS_PER_DAY)
