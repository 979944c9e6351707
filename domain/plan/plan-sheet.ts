import type { Moment } from '../car.ts'
import { planCautions } from '../rules/cautions.ts'
import { capital, dateRangeWords, dayWords, hours, joinWords, weekWords } from '../text/words.ts'
import { dateToIsoWeek, formatIsoWeek, type IsoWeek, isoWeekDates } from '../time/iso-week.ts'
import { addDays, daysBetween } from '../time/local-date.ts'
import { instantToLocal } from '../time/zone.ts'
import { asSentence } from '../views/work-words.ts'
import {
  entryTime,
  type PlanEntry,
  type PlanLine,
  planLines,
  type PlanOf,
  planPieces,
  type PlanTelling,
} from './plan-words.ts'
import type { Plan } from './plan.ts'

/** What is printed of the plan of one person or bay: words only, so that it may go to a worker. */
export interface PlanSheet {
  readonly workshop: string
  /** 'Plan of Wren' */
  readonly title: string
  /** '25 Nov to 20 Dec 2026' */
  readonly period: string
  /** 'taken Wed 25 Nov 2026, 07:30', or 'not taken' for a proposal. */
  readonly standing: string
  readonly isTaken: boolean
  /** When the planner made it, and when it was printed. */
  readonly made: string
  readonly printed: string
  readonly weeks: readonly SheetWeek[]
  /** What lies beyond the weeks; '' when nothing does. */
  readonly further: string
  readonly cautions: readonly string[]
}

export interface SheetWeek {
  /** 'Week 48, 23 to 29 Nov' */
  readonly heading: string
  readonly days: readonly SheetDay[]
}

export interface SheetDay {
  /** 'Thu 26 Nov' */
  readonly day: string
  /** Empty on a working day for which nothing is planned. */
  readonly rows: readonly SheetRow[]
}

export interface SheetRow {
  /** '08:00 to 14:30' */
  readonly time: string
  readonly car: string
  readonly what: string
  readonly where: string
  readonly who: string
  /** Hours, why then, pins. */
  readonly notes: string
}

export interface SheetOrder {
  readonly plan: Plan
  readonly of: PlanOf
  readonly telling: PlanTelling
  /** Of the workshop, and of the person, bay or car. */
  readonly workshop: string
  readonly name: string
  /** Null for a proposal. */
  readonly takenAt: Moment | null
  readonly now: Moment
}

/** Further ahead a plan changes more often than it is printed. */
const SHEET_WEEKS = 4

/** The plan from today on, to the end of the fourth week. */
export function planSheet(order: SheetOrder): PlanSheet {
  const { plan, telling, workshop, name, takenAt, now } = order
  const today = instantToLocal(now, telling.zone).date
  const year = Number(today.slice(0, 4))
  const last = addDays(isoWeekDates(dateToIsoWeek(today))[6] ?? today, (SHEET_WEEKS - 1) * 7)
  const lines = planLines(plan, order.of, telling)
  return {
    workshop,
    title: `Plan of ${name}`,
    // Paper is kept: the year stands on it.
    period: dateRangeWords(today, last, NO_YEAR),
    standing: takenAt === null ? 'not taken' : `taken ${fullMoment(takenAt, telling.zone)}`,
    isTaken: takenAt !== null,
    made: fullMoment(plan.madeAt, telling.zone),
    printed: fullMoment(now, telling.zone),
    weeks: sheetWeeks(order, { today, last, year }, lines),
    further: furtherWords(lines, last, year),
    cautions: planCautions,
  }
}

interface Period {
  /** Local dates, both included. */
  readonly today: string
  readonly last: string
  readonly year: number
}

/** No year is the current one, so that it is always named. */
const NO_YEAR = 0

function fullMoment(at: Moment, zone: string): string {
  const { date, time } = instantToLocal(at, zone)
  return `${dayWords(date, NO_YEAR)}, ${time}`
}

function sheetWeeks(order: SheetOrder, period: Period, lines: readonly PlanLine[]): readonly SheetWeek[] {
  const days = sheetDays(order, period, lines)
  const weeks = Map.groupBy(days, ({ date }) => formatIsoWeek(dateToIsoWeek(date)))
  return [...weeks.values()].flatMap((ofWeek) => {
    const [first] = ofWeek
    if (first === undefined) return []
    const week = dateToIsoWeek(first.date)
    return [{ heading: weekHeading(week, period.year), days: ofWeek.map(({ shown }) => shown) }]
  })
}

function weekHeading(week: IsoWeek, year: number): string {
  const dates = isoWeekDates(week)
  const [monday = '', sunday = ''] = [dates[0], dates[6]]
  return `${capital(weekWords(week, year))}, ${dateRangeWords(monday, sunday, year)}`
}

interface DatedDay {
  readonly date: string
  readonly shown: SheetDay
}

function sheetDays(
  { plan, of, telling }: SheetOrder,
  { today, last, year }: Period,
  lines: readonly PlanLine[],
): readonly DatedDay[] {
  const byDate = new Map(lines.map(({ date, entries }) => [date, entries] as const))
  const there = standingSince(plan, of, telling, today)
  return Array.from({ length: daysBetween(today, last) + 1 }, (_, index) => addDays(today, index)).flatMap(
    (date) => {
      const entries = [...(date === today ? there : []), ...(byDate.get(date) ?? [])]
      const isFree = of.kind === 'person' && telling.worksOn(of.personId, date)
      if (entries.length === 0 && !isFree) return []
      const rows = entries.map((entry) => sheetRow(entry, of, telling.zone))
      return [{ date, shown: { day: dayWords(date, year), rows } }]
    },
  )
}

/** Stays that began on an earlier day and end on a later one: the days between do not name them. */
function standingSince(plan: Plan, of: PlanOf, telling: PlanTelling, today: string): readonly PlanEntry[] {
  const dateOf = (at: Moment): string => instantToLocal(at, telling.zone).date
  return planPieces(plan, of, telling)
    .filter(
      ({ told }) => told.kind === 'stay' && dateOf(told.start) < today && dateOf(told.finish - 1) > today,
    )
    .map(({ told }) => ({ ...told, part: 'goes on' as const }))
}

function sheetRow(entry: PlanEntry, of: PlanOf, zone: string): SheetRow {
  const { title, car, place, people, kind } = entry
  const who = joinWords(people)
  return {
    time: entryTime(entry, zone),
    car,
    what: title,
    where: of.kind === 'bay' || kind === 'stay' ? '' : place,
    who: who === '' || of.kind !== 'person' ? who : `with ${who}`,
    notes: notesOf(entry).map(asSentence).join(' '),
  }
}

/** What goes on from an earlier day has said how long it takes and why it starts then. */
function notesOf({ part, why, pinned, hours: left, begun }: PlanEntry): readonly string[] {
  const isNew = part === 'whole' || part === 'begins'
  return [
    isNew && left !== null ? `${hours(left)} of work left${begun ? ', begun' : ''}` : '',
    isNew && !begun ? why : '',
    pinned,
  ].filter((note) => note !== '')
}

function furtherWords(lines: readonly PlanLine[], last: string, year: number): string {
  const end = lines.at(-1)?.date ?? last
  return end <= last ? '' : `The plan goes on to ${dayWords(end, year)}; print it again when it comes near.`
}
