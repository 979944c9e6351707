import type {
  VarianceEntries,
  VarianceFiguresView,
  VarianceLine,
  VarianceView,
  VisitVarianceLine,
} from '../views/variance-shapes.ts'
import type { Cell, Column, Table } from './table.ts'

/** Every grouping of the Variance screen, each a table of its own; people only where they are shown. */
export function varianceTables(view: VarianceView): readonly Table[] {
  return [
    ...VARIANCE_TABLES.flatMap((by) => varianceTable(view, by) ?? []),
    {
      name: 'Rework',
      columns: [text('Cause'), hours('Rework h')],
      rows: view.rework.map(({ cause, hours: lost }) => [cause, lost]),
    },
  ]
}

/** One grouping; null where people are not shown. */
export function varianceTable(view: VarianceView, by: VarianceTableBy): Table | null {
  switch (by) {
    case 'car':
      return carTable(view.byCar)
    case 'type':
      return lineTable('Repair types', view.byType)
    case 'gate':
      return lineTable('Gates', view.byGate)
    case 'zone':
      return lineTable('Zones', view.byZone)
    case 'month':
      return lineTable('Months', view.byMonth)
    case 'person':
      return view.byPerson === null ? null : lineTable('People', view.byPerson)
  }
}

export const VARIANCE_TABLES = ['car', 'type', 'gate', 'zone', 'month', 'person'] as const
export type VarianceTableBy = (typeof VARIANCE_TABLES)[number]

/** The single time entries behind one figure. Names stand only where the view gives them. */
export function entryTable({ name, entries }: VarianceEntries): Table {
  return {
    name: sheetName(name),
    columns: [
      { head: 'Day', kind: 'date' },
      text('Person'),
      text('On'),
      hours('Hours h'),
      hours('Of entry h'),
      text('Rework'),
      hours('On released holds h'),
      text('Note'),
    ],
    rows: entries.map((entry) => [
      entry.date,
      entry.person,
      entry.what,
      entry.hours,
      entry.ofHours,
      entry.causes.join(', '),
      entry.onReleased,
      entry.note,
    ]),
  }
}

const text = (head: string): Column => ({ head, kind: 'text' })
const hours = (head: string): Column => ({ head, kind: 'hours' })
const ratio = (head: string): Column => ({ head, kind: 'ratio' })

interface Figure extends Column {
  readonly of: (figures: VarianceFiguresView) => number | null
}

/** The published letters stand beside our words, so that a reader of either finds the column. */
const FIGURES: readonly Figure[] = [
  { ...hours('Baseline h'), of: ({ baseline }) => baseline },
  { ...hours('Authorised h (BAC)'), of: (line) => line.hours.authorised },
  { ...hours('Waiting h'), of: (line) => line.hours.waiting },
  { ...hours('Given back h'), of: (line) => line.hours.givenBack },
  { ...hours('Planned by now h (PV)'), of: ({ planned }) => planned },
  { ...hours('Earned h (EV)'), of: (line) => line.hours.earned },
  { ...hours('Spent h (AC)'), of: (line) => line.hours.spent },
  { ...hours('Cost variance h (CV)'), of: ({ variance }) => variance },
  { ...ratio('Cost index (CPI)'), of: ({ index }) => index },
  { ...hours('Schedule variance h (SV)'), of: ({ scheduleVariance }) => scheduleVariance },
  { ...ratio('Schedule index (SPI)'), of: ({ scheduleIndex }) => scheduleIndex },
  { ...hours('Expected h (EAC)'), of: ({ expected }) => expected },
  { ...hours('At completion h (VAC)'), of: ({ atCompletion }) => atCompletion },
  { ...hours('Rework h'), of: (line) => line.hours.rework },
  { ...hours('On released holds h'), of: ({ onReleased }) => onReleased },
]

const figureColumns: readonly Column[] = FIGURES.map(({ head, kind }) => ({ head, kind }))

const figureCells = (line: VarianceFiguresView): readonly Cell[] => FIGURES.map(({ of }) => of(line))

function lineTable(name: string, lines: readonly VarianceLine[]): Table {
  return {
    name,
    columns: [text(name), ...figureColumns],
    rows: lines.map((line) => [line.name, ...figureCells(line)]),
  }
}

function carTable(lines: readonly VisitVarianceLine[]): Table {
  const weeks = ['Earned schedule weeks (ES)', 'Schedule variance weeks (SV(t))', 'Schedule index (SPI(t))']
  return {
    name: 'Cars',
    columns: [text('Car and visit'), ...figureColumns, ...weeks.map(ratio)],
    rows: lines.map((line) => [
      line.name,
      ...figureCells(line),
      line.schedule?.earnedSchedule ?? null,
      line.schedule?.scheduleVariance ?? null,
      line.schedule?.schedulePerformanceIndex ?? null,
    ]),
  }
}

const LONGEST_SHEET_NAME = 31

const sheetName = (name: string): string =>
  name
    .replace(/[\\/?*[\]:]/g, ' ')
    .slice(0, LONGEST_SHEET_NAME)
    .trim() || 'Entries'
