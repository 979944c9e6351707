import type { CarState, EntryState } from '../car.ts'
import type { PersonId, VisitId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { isLocalDate } from '../time/local-date.ts'
import { entryDate, entryHours, type EntryPiece, entryPieces } from '../value/entry-hours.ts'
import { isElsewhere } from '../value/own-visits.ts'
import { mayShowPerson } from '../views/person-figures.ts'
import type { ViewContext } from '../views/view-context.ts'
import { targetWords } from '../views/work-words.ts'
import type { Cell, Column, LongTable, Row } from './table.ts'

/** Local dates, both included; null leaves that end open. */
export interface DayRange {
  readonly from: string | null
  readonly to: string | null
}

export interface HoursAsked {
  readonly range: DayRange
  /** Who asks: people are named only to whom figures by person may be shown. */
  readonly by: PersonId
  readonly context: ViewContext
}

/** The days that hours are asked for. Refuses what is no date and an end before its beginning. */
export function dayRange(from: string | null, to: string | null): Result<DayRange> {
  if ([from, to].some((date) => date !== null && !isLocalDate(date))) return noDate
  return from !== null && to !== null && to < from ? wrongWayRound : ok({ from, to })
}

/**
 * Every time entry that counts, car by car and the workshop's own last, each by day; person-hours. An entry on several gates
 * has a row for each, whose hours add up to it. A running clock counts up to now.
 */
export function hoursTable(cars: Iterable<CarState>, asked: HoursAsked): LongTable {
  return { name: 'Hours', columns: COLUMNS, rows: hoursRows(cars, asked) }
}

function* hoursRows(cars: Iterable<CarState>, asked: HoursAsked): Generator<Row> {
  for (const car of cars) yield* carRows(car, asked)
  for (const { entry, date } of datedEntries(asked.context.workshop.entries.values(), asked))
    yield ownRow(entry, date, asked)
}

/** At once, as the car may change before the next row is asked for. */
function carRows(car: CarState, asked: HoursAsked): readonly Row[] {
  const visits = visitNames(car)
  return datedEntries(workedHere(car), asked).flatMap(({ entry, date }) =>
    entryPieces(car, entry, asked.context).map((piece) =>
      pieceRow(car, visits, { entry, date, piece }, asked),
    ),
  )
}

const COLUMNS: readonly Column[] = [
  { head: 'Day', kind: 'date' },
  { head: 'Person', kind: 'text' },
  { head: 'Car', kind: 'text' },
  { head: 'Shell number', kind: 'text' },
  { head: 'Visit', kind: 'text' },
  { head: 'What', kind: 'text' },
  { head: 'Hours h', kind: 'hours' },
  { head: 'Rework cause', kind: 'text' },
  { head: 'Note', kind: 'text' },
  { head: 'By clock or hand', kind: 'text' },
]

interface Dated {
  readonly entry: EntryState
  readonly date: string
}

const workedHere = (car: CarState): readonly EntryState[] =>
  [...car.entries.values()].filter(({ visitId }) => !isElsewhere(car, visitId))

/** Those that count and lie in the range, by day. */
function datedEntries(entries: Iterable<EntryState>, { range, context }: HoursAsked): readonly Dated[] {
  const dated: Dated[] = []
  for (const entry of entries) {
    if (entry.gone !== null) continue
    const date = entryDate(entry, context.workshop.zone)
    if ((range.from === null || date >= range.from) && (range.to === null || date <= range.to))
      dated.push({ entry, date })
  }
  return dated.toSorted((a, b) => a.date.localeCompare(b.date) || a.entry.stamp.number - b.entry.stamp.number)
}

function pieceRow(
  car: CarState,
  visits: ReadonlyMap<VisitId, string>,
  { entry, date, piece }: Dated & { readonly piece: EntryPiece },
  asked: HoursAsked,
): Row {
  return [
    date,
    personCell(entry, asked),
    car.name,
    car.shellNumber,
    entry.visitId === null ? null : (visits.get(entry.visitId) ?? null),
    targetWords(car, piece.target),
    piece.hours,
    piece.rework,
    entry.note,
    byWords(entry),
  ]
}

function ownRow(entry: EntryState, date: string, asked: HoursAsked): Row {
  const what = entry.on.kind === 'workshop' ? entry.on.what : null
  const hours = entryHours(entry, asked.context)
  return [date, personCell(entry, asked), null, null, null, what, hours, null, entry.note, byWords(entry)]
}

const personCell = ({ personId }: EntryState, { by, context }: HoursAsked): Cell =>
  mayShowPerson(context.workshop, by, personId) ? context.nameOf(personId) : null

const byWords = ({ by, time }: EntryState): string => (time.kind === 'running' ? `${by}, still running` : by)

/** 'visit 1', 'visit 2, warranty', in the order in which they were opened. */
function visitNames(car: CarState): ReadonlyMap<VisitId, string> {
  const visits = [...car.visits.values()].toSorted((a, b) => a.opened.number - b.opened.number)
  return new Map(
    visits.map(({ id, kind }, index) => [id, `visit ${index + 1}${kind === 'warranty' ? ', warranty' : ''}`]),
  )
}

const noDate = refuse(
  'bad-input',
  'One of the two days is no date.',
  'Choose both days from the calendar, or leave them empty for all hours.',
)
const wrongWayRound = refuse(
  'bad-input',
  'The last day lies before the first one.',
  'Choose a last day that is the first day or a later one.',
)
