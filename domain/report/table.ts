/** A table for people's own sheets: what is asked for in a file that any program opens. */
export interface Table {
  /** Of the sheet it stands on, at most 31 characters and none of \ / ? * [ ] : */
  readonly name: string
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
}

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
