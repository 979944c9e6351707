import { renameSync, rmSync } from 'node:fs'
import { databasePath } from '../../db/data-paths.ts'
import { openWriter } from '../../db/handle.ts'
import { migrate, readMigrations } from '../../db/migrate.ts'

/**
 * Puts the database of a closed data folder back to what an older version of the program would hold: its tables and columns,
 * with the rows that are in them now.
 */
export function makeOlder(dataDir: string, version: number): void {
  const [path, newer] = [databasePath(dataDir), `${databasePath(dataDir)}.newer`]
  renameSync(path, newer)
  const { sqlite, ...handle } = openWriter(path)
  migrate({ sqlite, ...handle }, readMigrations().slice(0, version))
  sqlite.pragma('foreign_keys = OFF')
  sqlite.prepare('ATTACH ? AS newer').run(newer)
  // The words that are searched lie in tables beside the virtual one, which take rows in this mode alone.
  sqlite.unsafeMode()
  for (const table of names(sqlite, PLAIN_TABLES)) {
    const columns = names(sqlite, `SELECT name FROM pragma_table_info('${table}')`)
      .map((column) => `"${column}"`)
      .join(', ')
    sqlite.exec(
      `DELETE FROM main."${table}"; INSERT INTO main."${table}" (${columns}) SELECT ${columns} FROM newer."${table}"`,
    )
  }
  sqlite.exec('DETACH newer')
  sqlite.close()
  rmSync(newer)
}

const PLAIN_TABLES = `SELECT name FROM main.sqlite_schema WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL %'`

const names = (sqlite: ReturnType<typeof openWriter>['sqlite'], query: string): readonly string[] =>
  sqlite.prepare(query).pluck().all() as string[]
