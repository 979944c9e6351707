import { isDeepStrictEqual } from 'node:util'
import { errorMessage } from '../domain/text/error-words.ts'
import { fault, RESTORE, type CheckFinding } from './check-finding.ts'
import { isSqliteError } from './database-problem.ts'
import { readDerived } from './derived.ts'
import type { DerivedRows } from './derived-rows.ts'
import type { Handle } from './handle.ts'
import { foldAll, foldAmounts, foldVariance } from './rebuild-derived.ts'
import { NO_VARIANCE, readVariance, toVarianceOfCar, type VarianceOfCar } from './stored-variance.ts'

/** Makes the derived rows anew in memory and compares them with those that the tables hold. */
export function checkDerived(reader: Handle): readonly CheckFinding[] {
  try {
    const rebuilt = [...foldAll(reader)]
    const stored = readDerived(reader)
    return [
      ...TABLES.flatMap((table) =>
        compareRows(
          table,
          rebuilt.flatMap((rows): readonly Row[] => rows[table]),
          stored[table],
        ),
      ),
      ...compareRows(
        'texts to search',
        rebuilt.flatMap(({ searched }) => searched.map(byLine)),
        stored.searched.map(byLine),
      ),
      ...checkVariance(reader),
    ]
  } catch (error) {
    if (isSqliteError(error)) throw error
    // A payload that was tampered with may be no JSON, or say what never can have been said.
    const reason = errorMessage(error)
    return [fault(`The facts cannot be read into cars: ${reason}`, 'The journal was changed.', RESTORE)]
  }
}

type Row = { readonly id: string }

const byLine = <T extends { readonly number: number }>(row: T): T & Row => ({
  ...row,
  id: `line ${row.number}`,
})

const TABLES = [
  'cars',
  'bookings',
  'entries',
  'attachments',
  'reports',
  'repairs',
] as const satisfies readonly (keyof DerivedRows)[]

/** One finding a car: its figures are made anew together. */
function checkVariance(reader: Handle): readonly CheckFinding[] {
  const amounts = foldAmounts(reader)
  const due = new Map<string, VarianceOfCar>()
  for (const { carId, ...rows } of foldVariance(reader, amounts))
    due.set(carId, toVarianceOfCar(amounts.get(carId) ?? [], rows))
  const kept = readVariance(reader)
  const carIds = [...new Set([...due.keys(), ...kept.keys()])]
  return carIds.flatMap((carId) =>
    isDeepStrictEqual(kept.get(carId) ?? NO_VARIANCE, due.get(carId) ?? NO_VARIANCE)
      ? []
      : [wrongRow('variance', carId)],
  )
}

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
  return wrong.map((id) => wrongRow(table, id))
}

const wrongRow = (table: string, id: string): CheckFinding =>
  fault(
    `The table of ${table} does not say of ${id} what the journal says.`,
    'The table was changed by hand, or the program has a defect. The facts themselves are not touched.',
    'Let it be mended: the tables are made anew from the journal. Report it if it comes again.',
    { by: 'making the tables anew' },
  )
