import type { PlanSheet } from '../../domain/plan/plan-sheet.ts'
import type { EstimateLetter } from '../../domain/report/estimate-letter.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { VariationLetter } from '../../domain/report/variation-letter.ts'
import type { PrintedAs } from '../api/deps.ts'

/** What the print worker is asked, one at a time. */
export type PrintJob =
  | {
      readonly kind: 'report'
      readonly week: OwnerWeek
      readonly as: PrintedAs
      readonly photosFolder: string
    }
  | {
      readonly kind: 'page'
      readonly week: OwnerWeek
      readonly as: PrintedAs
      readonly photosFolder: string
    }
  | { readonly kind: 'plan'; readonly sheet: PlanSheet }
  | { readonly kind: 'estimate'; readonly letter: EstimateLetter; readonly photosFolder: string }
  | { readonly kind: 'variation'; readonly letter: VariationLetter; readonly photosFolder: string }

export type PrintAnswer =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly reason: string }
