import { isDeepStrictEqual } from 'node:util'
import { fault, RESTORE, type CheckFinding } from './check-finding.ts'
import { isSqliteError } from './database-problem.ts'
import { readDerived } from './derived.ts'
import type { DerivedRows } from './derived-rows.ts'
import type { Handle } from './handle.ts'
import { foldAll } from './rebuild-derived.ts'

/** Makes the derived rows anew in memory and compares them with those that the tables hold. */
export function checkDerived(reader: Handle): readonly CheckFinding[] {
  try {
    const rebuilt = [...foldAll(reader)]
    const stored = readDerived(reader)
    return TABLES.flatMap((table) =>
      compareRows(
        table,
        rebuilt.flatMap((rows): readonly Row[] => rows[table]),
        stored[table],
      ),
    )
  } catch (error) {
    if (isSqliteError(error)) throw error
    // A payload that was tampered with may be no JSON, or say what never can have been said.
    const reason = error instanceof Error ? error.message : String(error)
    return [fault(`The facts cannot be read into cars: ${reason}`, 'The journal was changed.', RESTORE)]
  }
}

type Row = { readonly id: string }

const TABLES = [
  'cars',
  'bookings',
  'entries',
  'attachments',
  'reports',
] as const satisfies readonly (keyof DerivedRows)[]

function compareRows(
  table: string,
  rebuilt: readonly Row[],
  stored: readonly Row[],
): readonly CheckFinding[] {
  const kept = new Map(stored.map((row) => [row.id, row]))
  const due = new Map(rebuilt.map((row) => [row.id, row]))
  const wrong = [...new Set([...kept.keys(), ...due.keys()])].filter(
    (id) => !isDeepStrictEqual({ ...kept.get(id) }, { ...due.get(id) }),
  )
  return wrong.map((id) =>
    fault(
      `The table of ${table} does not say of ${id} what the journal says.`,
      'The table was changed by hand, or the program has a defect. The facts themselves are not touched.',
      'Keep a copy of the folder and report it; the tables can be made anew from the journal.',
    ),
  )
}
