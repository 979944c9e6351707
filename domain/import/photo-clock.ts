import type { Moment } from '../car.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { dayWords, plural } from '../text/words.ts'
import { cameraTimeToInstant, instantsShowing, localToInstant } from '../time/zone.ts'
import type { CameraTime } from './photo-match-shapes.ts'

/**
 * How far a camera's clock is off. A camera's clock runs on by itself and knows no summer time: what it shows differs
 * from UTC by the same amount in every photo until somebody sets it.
 */
export interface ClockCorrection {
  /** Milliseconds to be added to what the camera shows, read in its own zone or the workshop's. */
  readonly slow: number
  /** Milliseconds from the shown time, read as UTC, to the true instant; null where the reference names its own zone. */
  readonly fromUtc: number | null
}

/** A photo that is known to have been taken at a certain time, such as one of the workshop's clock. */
export interface ClockReference {
  readonly camera: CameraTime | null
  /** The workshop's wall clock: 'YYYY-MM-DD' and 'HH:MM' or 'HH:MM:SS'. Without seconds those of the camera stand. */
  readonly date: string
  readonly time: string
}

/**
 * The correction that makes the reference photo right, for all photos of the same camera.
 *
 * @param now what no photo can be taken after
 */
export function clockCorrection(
  { camera, date, time }: ClockReference,
  zone: string,
  now: Moment,
): Result<ClockCorrection> {
  const shown = camera === null ? null : shownInstant(camera, zone)
  if (camera === null || shown === null)
    return refuse(
      'bad-input',
      'This photo carries no camera date, so it cannot say how far the camera’s clock is off.',
      'Choose another photo of the same camera.',
    )
  const seconds = camera.local.slice(16, 19)
  const truth = localToInstant(date, time.length === 5 ? `${time}${seconds}` : time, zone)
  if (truth > now)
    return refuse(
      'bad-input',
      'The time that was given is still to come.',
      'Give the day and time at which this photo was taken.',
    )
  return ok({
    slow: truth - shown,
    fromUtc: camera.offset === null ? truth - Date.parse(`${camera.local}Z`) : null,
  })
}

export interface TakenAt {
  readonly at: Moment
  /** What is uncertain about the time; empty when nothing is. */
  readonly says: string
}

/**
 * When a photo was taken; null for a camera time that is none. Without a correction and without its own offset the
 * camera is taken to show the workshop's wall clock.
 */
export function takenAt(
  camera: CameraTime,
  correction: ClockCorrection | null,
  zone: string,
): TakenAt | null {
  const shown = shownInstant(camera, zone)
  if (shown === null) return null
  if (camera.offset === null && correction !== null && correction.fromUtc !== null)
    return { at: Date.parse(`${camera.local}Z`) + correction.fromUtc, says: '' }
  const slow = correction?.slow ?? 0
  if (camera.offset !== null) return { at: shown + slow, says: '' }
  return { at: shown + slow, says: doubtWords(camera.local, zone) }
}

/** 'The camera’s clock is 1 h 4 min slow.' */
export function correctionWords({ slow }: ClockCorrection): string {
  if (slow === 0) return 'The camera’s clock is right.'
  return `The camera’s clock is ${lengthWords(Math.abs(slow))} ${slow > 0 ? 'slow' : 'fast'}.`
}

/** '3 days 2 h', '1 h 4 min', '40 s'; the two largest units, at least a second. */
function lengthWords(ms: number): string {
  const seconds = Math.max(1, Math.round(ms / 1000))
  const units: readonly (readonly [number, string])[] = [
    [Math.floor(seconds / 86_400), plural('day', Math.floor(seconds / 86_400))],
    [Math.floor(seconds / 3600) % 24, `${Math.floor(seconds / 3600) % 24} h`],
    [Math.floor(seconds / 60) % 60, `${Math.floor(seconds / 60) % 60} min`],
    [seconds % 60, `${seconds % 60} s`],
  ]
  const first = units.findIndex(([count]) => count > 0)
  return units
    .slice(first, first + 2)
    .flatMap(([count, words]) => (count > 0 ? [words] : []))
    .join(' ')
}

function shownInstant({ local, offset }: CameraTime, zone: string): Moment | null {
  return cameraTimeToInstant(local.replace('T', ' ').replaceAll('-', ':'), zone, offset)
}

/** The hour that comes twice in autumn, of which `localToInstant` takes the first, and the one that is skipped in spring. */
function doubtWords(local: string, zone: string): string {
  const date = local.slice(0, 10)
  const time = local.slice(11, 16)
  const day = dayWords(date, Number(date.slice(0, 4)))
  switch (instantsShowing(date, local.slice(11), zone).length) {
    case 0:
      return `${time} was skipped on ${day}, when the clocks went forward.`
    case 1:
      return ''
    default:
      return `${time} came twice on ${day}, when the clocks went back; the first one is meant here.`
  }
}
