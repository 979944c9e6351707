import { getTableColumns, sql, type Placeholder, type SQL, type Table } from 'drizzle-orm'

type ByColumn<T extends Table, V> = { [C in keyof T['_']['columns']]: V }

/** A placeholder for every column under its own name, for a prepared insert of whole rows. */
export function placeholders<T extends Table>(table: T): ByColumn<T, Placeholder> {
  return byColumn(table, (name) => sql.placeholder(name))
}

/** The same for a prepared update, which takes them as SQL. */
export function placeholdersToSet<T extends Table>(table: T): ByColumn<T, SQL> {
  return byColumn(table, (name) => sql`${sql.placeholder(name)}`)
}

function byColumn<T extends Table, V>(table: T, valueOf: (name: string) => V): ByColumn<T, V> {
  const names = Object.keys(getTableColumns(table))
  return Object.fromEntries(names.map((name) => [name, valueOf(name)])) as ByColumn<T, V>
}
