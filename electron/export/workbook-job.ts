import type { MessagePort } from 'node:worker_threads'
import type { Table } from '../../domain/report/table.ts'
import type { Portion } from './write-workbook.ts'

/** What the workbook worker is asked, one at a time. */
export interface WorkbookJob {
  readonly sheets: readonly Omit<Table, 'rows'>[]
  /** The rows, sheet by sheet: each message to it is answered by a {@link RowsAnswer}. */
  readonly rows: MessagePort
}

/** The next rows of the sheet being written; null after its last ones. */
export type RowsAnswer = Portion | null

export type WorkbookAnswer =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly reason: string }
