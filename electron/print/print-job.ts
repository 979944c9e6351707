import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { PrintedAs } from './print-owner-week.ts'

/** What the print worker is asked, one at a time. */
export interface PrintJob {
  readonly week: OwnerWeek
  readonly as: PrintedAs
  readonly photosFolder: string
}

export type PrintAnswer =
  | { readonly ok: true; readonly pdf: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly reason: string }
