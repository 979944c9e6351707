import { asc, eq, getTableColumns, gt } from 'drizzle-orm'
import type { Handle } from './handle.ts'
import type { JournalRow } from './journal-hash.ts'
import { journal, payload } from './schema.ts'

/** A line as it stands in the file; null where its payload is missing. */
export interface StoredLine extends JournalRow {
  readonly json: string | null
  readonly salt: Buffer | null
}

const LINES_AT_ONCE = 2_000

/** The journal from its first line to its last, in pages: one of many years need not fit into memory. */
export function* storedLines({ orm }: Handle): Generator<readonly StoredLine[]> {
  for (let after = 0; ;) {
    const lines = orm
      .select({ ...getTableColumns(journal), json: payload.json, salt: payload.salt })
      .from(journal)
      .leftJoin(payload, eq(payload.number, journal.number))
      .where(gt(journal.number, after))
      .orderBy(asc(journal.number))
      .limit(LINES_AT_ONCE)
      .all()
    yield lines
    const last = lines.at(-1)
    if (!last) return
    after = last.number
  }
}
