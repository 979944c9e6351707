import type { LongTable, Table } from '../../domain/report/table.ts'

/** A table with all its rows worked out. */
export const atOnce = (table: LongTable): Table => ({ ...table, rows: [...table.rows] })
