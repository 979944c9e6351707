import { Temporal } from 'temporal-polyfill'
import { isLocalDate } from './local-date.ts'

/** A moment on the workshop's wall clock. */
export interface LocalMoment {
  /** YYYY-MM-DD */
  readonly date: string
  /** HH:MM, seconds cut off */
  readonly time: string
}

/** True for a zone name of the IANA database ('Europe/London'); fixed offsets are refused, they know no summer time. */
export function isTimeZone(zone: string): boolean {
  if (!/^[A-Za-z]/.test(zone)) return false
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone)
    return true
  } catch {
    return false
  }
}

/** The local date and time of an instant (epoch ms) in an IANA zone. */
export function instantToLocal(instantMs: number, zone: string): LocalMoment {
  const shown = new Date(instantMs + offsetAt(instantMs, zone)).toISOString()
  const split = shown.indexOf('T')
  return { date: shown.slice(0, split), time: shown.slice(split + 1, split + 6) }
}

/** The local date (YYYY-MM-DD) of an instant. */
export function localDateOf(instantMs: number, zone: string): string {
  return instantToLocal(instantMs, zone).date
}

/**
 * The instant (epoch ms) of a local date and a time 'HH:MM' or 'HH:MM:SS' ('24:00' is the end of the day).
 * A time that comes twice when the clocks go back is the first one; a time that is skipped when they go forward is
 * the moment they change, so that later wall times never give earlier instants.
 */
export function localToInstant(date: string, time: string, zone: string): number {
  if (time === '24:00') return dayEnd(date, zone)
  const wanted = Temporal.PlainDateTime.from(`${date}T${time}`)
  const found = wanted.toZonedDateTime(zone, { disambiguation: 'earlier' })
  if (found.toPlainDateTime().equals(wanted)) return found.epochMilliseconds
  // Skipped: 'earlier' lies before the change, by as much as was skipped.
  return (found.getTimeZoneTransition('next') ?? found).epochMilliseconds
}

/**
 * The instants (epoch ms) at which the wall clock of a zone shows a local time ('HH:MM' or 'HH:MM:SS'): two when the
 * clocks go back over it, none when they skip it. `localToInstant` says which is meant.
 */
export function instantsShowing(date: string, time: string, zone: string): readonly number[] {
  const wanted = Temporal.PlainDateTime.from(`${date}T${time}`)
  const instants = (['earlier', 'later'] as const)
    .map((disambiguation) => wanted.toZonedDateTime(zone, { disambiguation }))
    .filter((found) => found.toPlainDateTime().equals(wanted))
    .map((found) => found.epochMilliseconds)
  return [...new Set(instants)]
}

/** First instant of a local date. */
export function dayStart(date: string, zone: string): number {
  return Temporal.PlainDate.from(date).toZonedDateTime(zone).epochMilliseconds
}

/** First instant after a local date. */
export function dayEnd(date: string, zone: string): number {
  return Temporal.PlainDate.from(date).add({ days: 1 }).toZonedDateTime(zone).epochMilliseconds
}

/** ISO 8601 with the zone's UTC offset: '2026-11-26T14:30:00+00:00'; milliseconds only where there are any. */
export function instantToIso(instantMs: number, zone: string): string {
  return zoned(instantMs, zone).toString({ timeZoneName: 'never' })
}

/**
 * The instant (epoch ms) of a camera's EXIF time 'YYYY:MM:DD HH:MM:SS', read with its EXIF offset ('+01:00') or, where
 * that is missing or no offset, in the workshop's zone. Null for what is no time: such fields may hold anything.
 */
export function cameraTimeToInstant(text: string, zone: string, exifOffset: string | null): number | null {
  // EXIF text may be closed by NUL and padded with blanks.
  const [, year, month, day, time] =
    /^(\d{4}):(\d{2}):(\d{2}) ((?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d)[\s\0]*$/.exec(text) ?? []
  const date = `${year}-${month}-${day}`
  if (time === undefined || !isLocalDate(date)) return null
  const offset = /^(?:Z|[+-](?:0\d|1[0-4]):[0-5]\d)(?=[\s\0]*$)/.exec(exifOffset ?? '')?.[0]
  if (offset === undefined) return localToInstant(date, time, zone)
  return Temporal.Instant.from(`${date}T${time}${offset}`).epochMilliseconds
}

/** The year of the local date of an instant (epoch ms). */
export function localYearOf(instantMs: number, zone: string): number {
  return Number(localDateOf(instantMs, zone).slice(0, 4))
}

/** Hours that a clock runs between two instants (epoch ms), whatever the wall clock does meanwhile. */
export function hoursBetween(fromMs: number, toMs: number): number {
  return (toMs - fromMs) / MS_PER_HOUR
}

export const MS_PER_HOUR = 3_600_000
/** Of the clock, not of a local date: that may have 23 or 25 hours. */
export const MS_PER_DAY = 24 * MS_PER_HOUR

/** Between two changes of a zone's clocks, `to` not included; the offset from UTC in ms. */
interface Span {
  readonly from: number
  readonly to: number
  readonly offset: number
}

/** By zone, as they were met: two a year at most. A record of ten years asks for thousands of moments. */
const spans = new Map<string, Span[]>()

function offsetAt(instantMs: number, zone: string): number {
  const known = spans.get(zone) ?? []
  const met = known.find(({ from, to }) => instantMs >= from && instantMs < to)
  if (met !== undefined) return met.offset
  const moment = zoned(instantMs, zone)
  const offset = moment.offsetNanoseconds / 1e6
  // The change before is asked for from the next millisecond on: an instant at which the clocks change is its own.
  const from = zoned(instantMs + 1, zone).getTimeZoneTransition('previous')?.epochMilliseconds
  const to = moment.getTimeZoneTransition('next')?.epochMilliseconds
  spans.set(zone, [...known, { from: from ?? -Infinity, to: to ?? Infinity, offset }])
  return offset
}

function zoned(instantMs: number, zone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(instantMs).toZonedDateTimeISO(zone)
}
