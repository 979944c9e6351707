import type { CarState, Moment } from '../car.ts'
import type { Fact, FactKind } from '../facts.ts'
import { carFromFacts } from '../state/car-state.ts'
import { voidedNumbers } from '../state/fact-stamp.ts'
import { type IsoWeek, isoWeekDates } from '../time/iso-week.ts'
import { addDays } from '../time/local-date.ts'
import { dayEnd, dayStart } from '../time/zone.ts'

/** A week on the workshop's wall clock: Monday 00:00 to the next Monday 00:00, first moment in, last one out. */
export interface ReportWeek {
  readonly week: IsoWeek
  readonly monday: string
  readonly sunday: string
  readonly from: Moment
  readonly to: Moment
}

export function reportWeek(week: IsoWeek, zone: string): ReportWeek {
  const dates = isoWeekDates(week)
  const [monday = '', sunday = ''] = [dates[0], dates[6]]
  return { week, monday, sunday, from: dayStart(monday, zone), to: dayEnd(sunday, zone) }
}

/** A car at both ends of a week, and what happened to it in between. */
export interface CarInWeek {
  /** As it stood when the week began; null for a car that was not known yet. */
  readonly before: CarState | null
  /** As it stands at the end of the week, or now while the week runs. */
  readonly car: CarState
  /** Facts that happened in the week and were not voided, in journal order. */
  readonly facts: readonly Fact[]
  /** What `car` is judged at: now, or the last moment of a week that is over. */
  readonly at: Moment
}

/**
 * Reads a car's chain for one week, so that a report of a week that is over tells that week and not what came after.
 * Facts count by when they happened, hours by when they were worked, whenever they were written down; what was voided
 * or corrected since is left out. Null when the car was not known by the end of the week.
 */
export function carInWeek(facts: readonly Fact[], week: ReportWeek, now: Moment): CarInWeek | null {
  const car = carUntil(facts, { at: week.to, date: addDays(week.sunday, 1) })
  if (car === null) return null
  const voided = voidedNumbers(facts)
  const inWeek = facts.filter((fact) => {
    const happened = Date.parse(fact.happened)
    return happened >= week.from && happened < week.to && !voided.has(fact.number)
  })
  return {
    before: carUntil(facts, { at: week.from, date: week.monday }),
    car,
    facts: inWeek,
    at: Math.min(now, week.to - 1),
  }
}

/** The first moment that no longer counts, and the local date it begins. */
interface End {
  readonly at: Moment
  readonly date: string
}

function carUntil(facts: readonly Fact[], end: End): CarState | null {
  return carFromFacts(facts.filter((fact) => isCorrection(fact) || isBefore(fact, end)))
}

/** What puts right how an earlier fact was written down counts however late it came. */
function isCorrection({ kind }: Fact): boolean {
  return CORRECTIONS.has(kind)
}

const CORRECTIONS: ReadonlySet<FactKind> = new Set<FactKind>([
  'factVoided',
  'captionSet',
  'photoShowsSet',
  'photoMarked',
  'timeCorrected',
  'clockConfirmed',
])

function isBefore(fact: Fact, end: End): boolean {
  switch (fact.kind) {
    case 'timeLogged': {
      const { time } = fact.payload
      return time.kind === 'span' ? Date.parse(time.start) < end.at : time.date < end.date
    }
    case 'clockStarted':
      return Date.parse(fact.payload.start) < end.at
    default:
      return Date.parse(fact.happened) < end.at
  }
}
