import { and, eq, sql } from 'drizzle-orm'
import type { Moment } from '../domain/car.ts'
import type { Fact } from '../domain/facts.ts'
import type { VisitId } from '../domain/ids.ts'
import { type ReportChoices, reportChoicesSchema } from '../domain/report/report-choices.ts'
import type { Database, ReadDatabase } from './database.ts'
import { perHandle, type Handle } from './handle.ts'
import { placeholders } from './placeholders.ts'
import { preparedReport, reportDraft } from './schema.ts'

export interface PreparedReport {
  readonly visitId: VisitId
  /** ISO week, '2026-W48' */
  readonly week: string
  readonly preparedAt: Moment
  /** Sentences; none when it can be issued as it is. */
  readonly problems: readonly string[]
}

/** What the manager has chosen for a report that is not issued yet; null for nothing of their own. */
export function readDraft(db: ReadDatabase, visitId: VisitId, week: string): ReportChoices | null {
  const row = queries(db.reader).draft.get({ visitId, week })
  // A draft of an earlier program may lack what is chosen today: the manager then starts anew.
  return reportChoicesSchema.safeParse(row?.choices).data ?? null
}

/** Keeps a draft in the place of the one before; null drops it. On the disk when this returns. */
export function keepDraft(
  db: Database,
  { visitId, week }: { readonly visitId: VisitId; readonly week: string },
  choices: ReportChoices | null,
): void {
  const { keepDraft: keep, dropDraft } = queries(db.writer)
  if (choices === null) dropDraft.run({ visitId, week })
  else keep.run({ visitId, week, choices })
}

/** Keeps when a report was prepared, in the place of the time before. */
export function keepPrepared(db: Database, prepared: PreparedReport): void {
  queries(db.writer).keepPrepared.run({ ...prepared })
}

/** When a report was prepared last, and what was wrong with it then; null where it was not. */
export function readPrepared(db: ReadDatabase, visitId: VisitId, week: string): PreparedReport | null {
  return queries(db.reader).prepared.get({ visitId, week }) ?? null
}

/** What was issued is no longer in preparation. Must run inside the transaction that adds the facts. */
export function forgetIssued(writer: Handle, facts: readonly Fact[]): void {
  const { dropDraft, dropPrepared } = queries(writer)
  for (const fact of facts) {
    if (fact.kind !== 'reportIssued') continue
    const { visitId, week } = fact.payload
    dropDraft.run({ visitId, week })
    dropPrepared.run({ visitId, week })
  }
}

const queries = perHandle(({ orm }) => {
  const ofReport = (table: typeof reportDraft | typeof preparedReport) =>
    and(eq(table.visitId, sql.placeholder('visitId')), eq(table.week, sql.placeholder('week')))
  return {
    draft: orm.select().from(reportDraft).where(ofReport(reportDraft)).prepare(),
    prepared: orm.select().from(preparedReport).where(ofReport(preparedReport)).prepare(),
    keepDraft: orm
      .insert(reportDraft)
      .values(placeholders(reportDraft))
      .onConflictDoUpdate({
        target: [reportDraft.visitId, reportDraft.week],
        set: { choices: sql`excluded.choices` },
      })
      .prepare(),
    keepPrepared: orm
      .insert(preparedReport)
      .values(placeholders(preparedReport))
      .onConflictDoUpdate({
        target: [preparedReport.visitId, preparedReport.week],
        set: { preparedAt: sql`excluded.prepared_at`, problems: sql`excluded.problems` },
      })
      .prepare(),
    dropDraft: orm.delete(reportDraft).where(ofReport(reportDraft)).prepare(),
    dropPrepared: orm.delete(preparedReport).where(ofReport(preparedReport)).prepare(),
  }
})
