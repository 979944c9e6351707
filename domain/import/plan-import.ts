import { ok, type Result } from '../refusal.ts'
import { readLines } from './columns.ts'
import { carColumns, planCars } from './import-cars.ts'
import { hoursColumns, planHours } from './import-hours.ts'
import type { ImportContext, ImportPlan } from './import-plan.ts'
import { planRepairs, repairColumns } from './import-repairs.ts'
import { parseCsv } from './parse-csv.ts'

export const IMPORT_KINDS = ['cars', 'repairs', 'hours'] as const
export type ImportKind = (typeof IMPORT_KINDS)[number]

/**
 * What a CSV file would bring in: a summary or the problems of each line, and the commands that do it. docs/import.md
 * describes the columns. Whether the workshop's rules let each command through is decided when they are executed.
 * Refused as a whole: what {@link parseCsv} and {@link readLines} refuse.
 */
export function planImport(kind: ImportKind, text: string, context: ImportContext): Result<ImportPlan> {
  const rows = parseCsv(text)
  if (!rows.ok) return rows
  switch (kind) {
    case 'cars':
      return map(readLines(rows.value, carColumns), (lines) => planCars(lines, context))
    case 'repairs':
      return map(readLines(rows.value, repairColumns), (lines) => planRepairs(lines, context))
    case 'hours':
      return map(readLines(rows.value, hoursColumns), (lines) => planHours(lines, context))
  }
}

function map<T, U>(result: Result<T>, change: (value: T) => U): Result<U> {
  return result.ok ? ok(change(result.value)) : result
}
