import { useMemo } from 'react'
import type { Moment } from '../../../domain/car.ts'
import { dateRangeWords, dayWords, weekWords } from '../../../domain/text/words.ts'
import { dateToIsoWeek, formatIsoWeek } from '../../../domain/time/iso-week.ts'
import { instantToIso, instantToLocal } from '../../../domain/time/zone.ts'
import { useActor } from '../sign/actor.tsx'

export interface When {
  readonly zone: string
  /** Today's local date, 'YYYY-MM-DD', by the host's clock in the workshop's zone. */
  readonly today: string
  /** 'YYYY-Www' */
  readonly thisWeek: string
  /** 'Thu 26 Nov' of a local date, or of a moment. */
  readonly day: (at: string | Moment) => string
  /** 'Thu 26 Nov, 14:30' */
  readonly dayAndTime: (at: Moment) => string
  /** 'week 48' */
  readonly week: (at: Moment) => string
  /** '14:30' for today, else 'Thu 26 Nov, 14:30'. */
  readonly short: (at: Moment) => string
  readonly time: (at: Moment) => string
  /** '16 to 23 Dec' of two local dates. */
  readonly range: (from: string, to: string) => string
  readonly dateOf: (at: Moment) => string
  /** ISO 8601 with the zone's offset, as commands state times. */
  readonly iso: (at: Moment) => string
}

/** Words for moments and dates, read in the workshop's zone. */
export function useWhen(): When {
  const { session, hostNow } = useActor()
  const today = instantToLocal(hostNow(), session.zone).date
  return useMemo(() => createWhen(session.zone, today), [session.zone, today])
}

export function createWhen(zone: string, today: string): When {
  const year = Number(today.slice(0, 4))
  const dateOf = (at: Moment) => instantToLocal(at, zone).date
  const day = (at: string | Moment) => dayWords(typeof at === 'string' ? at : dateOf(at), year)
  const time = (at: Moment) => instantToLocal(at, zone).time
  const dayAndTime = (at: Moment) => `${day(at)}, ${time(at)}`
  return {
    zone,
    today,
    thisWeek: formatIsoWeek(dateToIsoWeek(today)),
    day,
    time,
    dayAndTime,
    week: (at) => weekWords(dateToIsoWeek(dateOf(at)), dateToIsoWeek(today).year),
    short: (at) => (dateOf(at) === today ? time(at) : dayAndTime(at)),
    range: (from, to) => dateRangeWords(from, to, year),
    dateOf,
    iso: (at) => instantToIso(at, zone),
  }
}
