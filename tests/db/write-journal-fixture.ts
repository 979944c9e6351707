/*
 * Writes tests/fixtures/journal-vN.ndjson, a journal that holds every kind of fact in the version that is written now:
 * node tests/db/write-journal-fixture.ts. Run it when a new version of facts is made, and never again once that version
 * has been released: what people's folders hold does not change either.
 */
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { eq, getTableColumns } from 'drizzle-orm'
import { recordPhoto } from '../../db/photo-rows.ts'
import { journal, payload } from '../../db/schema.ts'
import { FACT_VERSION } from '../../domain/facts.ts'
import { createWorkshop } from '../support/workshop.ts'
import { recordEveryKind } from './every-kind.ts'

const workshop = createWorkshop()
const digests = ['a', 'b', 'c'].map((letter) => letter.repeat(64))
const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
for (const sha256 of digests) recordPhoto(workshop.db, { sha256, byteCount: 1234, facts }, workshop.now)
recordEveryKind(workshop, digests, 'd'.repeat(64))

const lines = workshop.db.writer.orm
  .select({ ...getTableColumns(journal), json: payload.json, salt: payload.salt })
  .from(journal)
  .innerJoin(payload, eq(payload.number, journal.number))
  .orderBy(journal.number)
  .all()
const text = lines.map((line) => JSON.stringify({ ...line, salt: line.salt.toString('hex') })).join('\n')
writeFileSync(
  fileURLToPath(new URL(`../fixtures/journal-v${FACT_VERSION}.ndjson`, import.meta.url)),
  `${text}\n`,
)
