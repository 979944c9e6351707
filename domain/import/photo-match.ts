import type { Moment } from '../car.ts'
import { dayWords, plural, timeOfDay } from '../text/words.ts'
import { localDateOf, localYearOf } from '../time/zone.ts'
import { BESIDE_CLOCK_MS, candidatesAt, type Candidate } from './photo-candidates.ts'
import { takenAt, type ClockCorrection, type TakenAt } from './photo-clock.ts'
import type { CardPhoto, CarForPhotos, FittingWork, PhotoMatch, Sureness } from './photo-match-shapes.ts'
import { photoShows } from './photo-shows.ts'

export interface PhotosToMatch {
  readonly photos: readonly CardPhoto[]
  /** The cars that the photos may be of. */
  readonly cars: readonly CarForPhotos[]
  readonly correction: ClockCorrection | null
  /** IANA zone of the workshop. */
  readonly zone: string
  readonly now: Moment
}

/**
 * Which gate or task each photo belongs to, by when it was taken. Own rule, no source: the work that a clock ran on at
 * that moment; else what lies closest, up to 10 minutes from a clock and from 30 minutes before a passing to 10 after;
 * else hours written down for that day.
 *
 * - certain: one clocked piece of work alone, and no other begun, stopped or passed within 10 minutes of the photo
 * - likely: one alone that is less close or less exactly known, or the nearest by three times
 * - several fit: two or more are equally close, as when two people are clocked on at once
 * - none: no camera date, one that is still to come or before the cars came, or nothing close
 */
export function matchPhotos(input: PhotosToMatch): readonly PhotoMatch[] {
  const worked = input.cars.filter(({ worked, passed }) => worked.length + passed.length > 0)
  return input.photos.map(({ sha256, camera }) => {
    const time = camera === null ? null : takenAt(camera, input.correction, input.zone)
    return matchPhoto(sha256, time, { ...input, worked })
  })
}

interface Matching extends PhotosToMatch {
  readonly worked: readonly CarForPhotos[]
}

function matchPhoto(sha256: string, time: TakenAt | null, input: Matching): PhotoMatch {
  const { zone, now, worked } = input
  if (time === null) return unmatched(sha256, null, 'It carries no camera date.')
  const { at } = time
  const when = momentWords(at, input)
  if (at > now)
    return unmatched(
      sha256,
      at,
      `By the camera it was taken on ${when}, which is still to come: its clock is wrong.`,
    )
  const came = input.cars.reduce((first, car) => Math.min(first, car.came), Infinity)
  if (at < came)
    return unmatched(sha256, at, `It was taken on ${when}, before ${beforeWhom(input)} had come.`)

  const found = candidatesAt(worked, at, zone)
  const { sure, fits, says } = judge(found, time)
  const others = found.slice(fits.length).filter(({ close }) => sure === 'none' || close !== 'far')
  return {
    sha256,
    taken: at,
    sure,
    fits: fits.map((fit) => toFitting(fit, at, zone)),
    others: others.slice(0, MOST_OTHERS).map((fit) => toFitting(fit, at, zone)),
    says: joined(says, time.says),
  }
}

/** 'taken at 14:32, while Joss was clocked on Boot floor, right, fabricated (13:10 to 15:40)' */
export function reasonWords(taken: Moment, { why }: Pick<FittingWork, 'why'>, zone: string): string {
  return `taken at ${timeOfDay(taken, zone)}, ${why}`
}

/** Pieces of work less close that are named beside a photo. */
const MOST_OTHERS = 3

function judge(
  found: readonly Candidate[],
  time: TakenAt,
): { readonly sure: Sureness; readonly fits: readonly Candidate[]; readonly says: string } {
  const [best, next] = found
  if (best === undefined || best.close === 'far') return { sure: 'none', fits: [], says: NOTHING_CLOSE }
  const fits = found.filter((each) => isAsClose(best, each))
  if (fits.length > 1)
    return { sure: 'several fit', fits, says: `${plural('piece', fits.length)} of work fit equally well.` }
  const isAlone = next === undefined || next.distance > BESIDE_CLOCK_MS
  return { sure: best.clocked && isAlone && time.says === '' ? 'certain' : 'likely', fits, says: '' }
}

const NOTHING_CLOSE = 'No clocked work and no passed gate lies close to it.'

/** One that is three times as near as the next stands alone. */
function isAsClose(best: Candidate, other: Candidate): boolean {
  if (other.close !== best.close) return false
  return best.close !== 'beside' || other.distance < 3 * best.distance
}

function toFitting({ car, target, why }: Candidate, at: Moment, zone: string): FittingWork {
  return { carId: car.carId, target, why: why(), ...photoShows(car, target, at, zone) }
}

function unmatched(sha256: string, taken: Moment | null, says: string): PhotoMatch {
  return { sha256, taken, sure: 'none', fits: [], others: [], says }
}

function beforeWhom({ cars }: PhotosToMatch): string {
  return cars.length === 1 ? 'this car' : 'any of the cars'
}

function momentWords(at: Moment, { zone, now }: PhotosToMatch): string {
  return `${dayWords(localDateOf(at, zone), localYearOf(now, zone))} at ${timeOfDay(at, zone)}`
}

const joined = (...sentences: readonly string[]): string => sentences.filter((each) => each !== '').join(' ')
