import type { AttachmentId, RepairId, VariationId } from '../ids.ts'
import type { StripMark } from '../drawing/gate-strip-drawing.ts'
import type { LanguageCode } from '../language/language-codes.ts'
import type { PhotoMarks } from '../photo-marks/photo-marks.ts'
import type { Crop } from './report-choices.ts'
import type { SectionView } from '../views/shared-views.ts'

/**
 * The owner's week as content: plain sentences, photos and drawings in reading order, without any layout. No section and
 * no list is empty. Names of technicians are not in it.
 */
export interface OwnerWeek {
  /** The language that it is written in. */
  readonly language: LanguageCode
  readonly workshop: string
  readonly owner: string
  /** 'Dunmere Saloon, shell 0412' */
  readonly title: string
  /** 'Week 48, 23 to 29 Nov 2026' */
  readonly subtitle: string
  /** ISO week, '2026-W48' */
  readonly week: string
  /** The local date that the report speaks of, YYYY-MM-DD: today, or the Sunday of a week that is over. */
  readonly asOf: string
  /** 'Fri 27 Nov 2026', the day it is written. */
  readonly written: string
  /** Reports of a visit are counted from 1, in the order in which they are issued. */
  readonly number: number
  readonly greeting: string
  readonly opening: readonly string[]
  /** The manager's own words, paragraph by paragraph. */
  readonly words: readonly string[]
  readonly sections: readonly ReportSection[]
  /** What the report is not, and what must be inspected by others. */
  readonly cautions: readonly string[]
}

export interface ReportSection {
  readonly heading: string
  readonly blocks: readonly ReportBlock[]
}

export type ReportBlock =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'repair'
      readonly title: string
      readonly texts: readonly string[]
      readonly plates: readonly PhotoPlate[]
    }
  | { readonly kind: 'plates'; readonly plates: readonly PhotoPlate[] }
  | {
      readonly kind: 'standing'
      readonly repairId: RepairId
      readonly title: string
      readonly text: string
      readonly section: SectionView
      readonly marks: readonly StripMark[]
    }
  | { readonly kind: 'figures'; readonly head: readonly string[]; readonly rows: readonly FigureRow[] }
  | {
      readonly kind: 'question'
      readonly variationId: VariationId | null
      readonly title: string
      readonly texts: readonly string[]
      /** '6.5 h more' */
      readonly hours: string
      readonly plates: readonly PhotoPlate[]
    }

/** One row of a small table; every figure carries its unit. */
export interface FigureRow {
  readonly label: string
  readonly figures: readonly string[]
  readonly isTotal: boolean
}

export type PhotoPlate =
  | { readonly kind: 'pair'; readonly before: ReportPhoto; readonly after: ReportPhoto }
  | { readonly kind: 'single'; readonly photo: ReportPhoto }

export interface ReportPhoto {
  readonly attachmentId: AttachmentId
  readonly sha256: string
  readonly caption: string
  /** 'Tue 24 Nov' */
  readonly taken: string
  /** The part of it that is shown; null for the whole photo. */
  readonly crop: Crop | null
  /** Drawn on the part that is shown, in shares of it. */
  readonly marks: PhotoMarks
}

/** Every photo of a report once, in reading order. */
export function reportPhotos(week: Pick<OwnerWeek, 'sections'>): readonly ReportPhoto[] {
  return week.sections.flatMap(({ blocks }) => blocks.flatMap(platesOf)).flatMap(photosOf)
}

export function photosOf(plate: PhotoPlate): readonly ReportPhoto[] {
  return plate.kind === 'pair' ? [plate.before, plate.after] : [plate.photo]
}

function platesOf(block: ReportBlock): readonly PhotoPlate[] {
  return 'plates' in block ? block.plates : []
}
