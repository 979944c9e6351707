import { getTableName, is } from 'drizzle-orm'
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { expect, test } from 'vitest'
import { openInMemory } from '../../db/open-database.ts'
import * as schema from '../../db/schema.ts'

const tables = Object.values(schema).filter((each) => is(each, SQLiteTable))

interface ColumnInfo {
  readonly name: string
  readonly type: string
  readonly notnull: 0 | 1
  readonly pk: number
}

test('the migrations make exactly the tables that the program knows', () => {
  const { writer } = openInMemory()
  const made = writer.sqlite
    // FTS5 keeps an index of words in tables of its own.
    .prepare(
      `SELECT name FROM pragma_table_list WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`,
    )
    .pluck()
    .all()
  expect(made).toEqual(tables.map((table) => getTableName(table)).toSorted())
})

test.each(tables.map((table) => [getTableName(table), table] as const))(
  'the columns of %s are those that the migrations make',
  (name, table) => {
    const { writer } = openInMemory()
    const made = writer.sqlite.pragma(`table_info(${name})`) as readonly ColumnInfo[]
    const { columns, primaryKeys } = getTableConfig(table)
    const isKey = (column: (typeof columns)[number]) =>
      column.primary || primaryKeys.some((key) => key.columns.some((each) => each.name === column.name))
    expect(
      made.map(({ name, type, notnull, pk }) => ({
        name,
        type,
        notNull: notnull === 1 || pk > 0,
        pk: pk > 0,
      })),
    ).toEqual(
      columns.map((column) => ({
        name: column.name,
        type: column.getSQLType().toUpperCase(),
        notNull: column.notNull || isKey(column),
        pk: isKey(column),
      })),
    )
  },
)
