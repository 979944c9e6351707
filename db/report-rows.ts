import { eq, sql } from 'drizzle-orm'
import type { ReadDatabase } from './database.ts'
import type { ReportRow } from './derived-rows.ts'
import { perHandle } from './handle.ts'
import { report } from './schema.ts'

/** An issued report by its id; null when none was issued under it. */
export function reportRow(db: ReadDatabase, reportId: string): ReportRow | null {
  return queries(db.reader).find.get({ reportId }) ?? null
}

const queries = perHandle(({ orm }) => ({
  find: orm
    .select()
    .from(report)
    .where(eq(report.id, sql.placeholder('reportId')))
    .prepare(),
}))
