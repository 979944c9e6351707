/** A table for people's own sheets: what is asked for in a file that any program opens. */
export interface Table {
  /** Of the sheet it stands on, at most 31 characters and none of \ / ? * [ ] : */
  readonly name: string
  readonly columns: readonly Column[]
  readonly rows: readonly Row[]
}

/** One whose rows may be worked out while they are gone through, so only once: ten years of hours are never in memory at once. */
export interface LongTable extends Omit<Table, 'rows'> {
  readonly rows: Iterable<Row>
}

/** A cell for each column. */
export type Row = readonly Cell[]

export interface Column {
  readonly head: string
  /**
   * 'hours' in person-hours and 'ratio' without a unit have two decimals; 'money' is in the currency's main unit; 'date' is
   * YYYY-MM-DD.
   */
  readonly kind: 'text' | 'date' | 'hours' | 'ratio' | 'money'
}

/** Null is undefined or not there, an empty cell. */
export type Cell = string | number | null
