import type { CarState, EntryState } from '../car.ts'
import type { PersonId } from '../ids.ts'
import { entryDate, entryHours } from '../value/entry-hours.ts'
import { ownVisits } from '../value/own-visits.ts'
import { groupKey } from '../value/variance-groups.ts'
import type { VarianceRow } from '../value/variance-row.ts'
import { spentPieces } from '../value/variance-rows.ts'
import { mayShowPerson } from './person-figures.ts'
import type { DrillKey } from './variance-drill.ts'
import type { VarianceEntries, VarianceEntry } from './variance-shapes.ts'
import type { ViewContext } from './view-context.ts'
import { loggedOnWords } from './work-words.ts'

/**
 * The time entries of a car that have a part in a figure.
 *
 * @param by who is signed in on the device: people are named only to whom figures by person may be shown
 */
export function varianceEntries(
  { grouping, key }: DrillKey,
  car: CarState,
  by: PersonId | null,
  context: ViewContext,
): VarianceEntries {
  const pieces = ownVisits(car)
    .flatMap((visit) => spentPieces(car, visit, context))
    .filter(({ row }) => groupKey(row.labels, grouping) === key)
  const entries = [...Map.groupBy(pieces, ({ entry }) => entry)].map(([entry, own]) =>
    entryOf(
      entry,
      own.map(({ row }) => row),
      { car, by, context },
    ),
  )
  return {
    carId: car.id,
    name: car.name,
    entries: entries.toSorted((a, b) => b.date.localeCompare(a.date) || b.number - a.number),
  }
}

interface Of {
  readonly car: CarState
  readonly by: PersonId | null
  readonly context: ViewContext
}

function entryOf(entry: EntryState, rows: readonly VarianceRow[], { car, by, context }: Of): VarianceEntry {
  const isShown = mayShowPerson(context.workshop, by, entry.personId)
  const [first] = rows
  return {
    entryId: entry.id,
    visitId: (first as VarianceRow).labels.visitId,
    personId: isShown ? entry.personId : null,
    person: isShown ? context.nameOf(entry.personId) : null,
    date: entryDate(entry, context.workshop.zone),
    hours: sumOf(rows, 'spent'),
    ofHours: entryHours(entry, context),
    what: loggedOnWords(car, entry.on),
    causes: [...new Set(rows.flatMap(({ labels: { cause } }) => (cause === null ? [] : [cause])))],
    onReleased: sumOf(rows, 'onReleased'),
    note: entry.note,
    running: entry.time.kind === 'running',
    number: entry.stamp.number,
  }
}

const sumOf = (rows: readonly VarianceRow[], figure: 'spent' | 'onReleased'): number =>
  rows.reduce((sum, { figures }) => sum + (figures[figure] ?? 0), 0)
