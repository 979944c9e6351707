import { and, asc, eq, getTableColumns, gt, lte, sql } from 'drizzle-orm'
import type { CarId } from '../domain/ids.ts'
import type { WrittenLine } from '../domain/report/car-file-line.ts'
import type { ReadDatabase } from './database.ts'
import { perHandle } from './handle.ts'
import { journal, payload } from './schema.ts'

const LINES_AT_ONCE = 500

/**
 * The lines of a car's chain as they were written, up to the one with that place in it, in order. In pieces: between two
 * of them others may use the connection.
 */
export function* carLines(db: ReadDatabase, carId: CarId, last: number): Generator<WrittenLine> {
  for (let after = 0; ;) {
    const lines = queries(db.reader).piece.all({ chain: carId, after, last })
    for (const { salt, ...line } of lines) yield { ...line, chain: carId, salt: salt.toString('hex') }
    const end = lines.at(-1)
    if (!end) return
    after = end.chainNumber
  }
}

const queries = perHandle(({ orm }) => ({
  piece: orm
    .select({ ...getTableColumns(journal), json: payload.json, salt: payload.salt })
    .from(journal)
    .innerJoin(payload, eq(payload.number, journal.number))
    .where(
      and(
        eq(journal.chain, sql.placeholder('chain')),
        gt(journal.chainNumber, sql.placeholder('after')),
        lte(journal.chainNumber, sql.placeholder('last')),
      ),
    )
    .orderBy(asc(journal.chainNumber))
    .limit(LINES_AT_ONCE)
    .prepare(),
}))
