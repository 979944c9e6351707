import type { MapCover, MapFit, MapRepair } from '../drawing/closing-map/map-shapes.ts'
import type { StripMark } from '../drawing/gate-strip-drawing.ts'
import type { AttachmentId } from '../ids.ts'
import type { PhotoMarks } from '../photo-marks/photo-marks.ts'
import type { SectionView } from '../views/shared-views.ts'

/**
 * The car's file as the content of a book: sentences, tables, drawings and photos in reading order, without any layout.
 * No chapter, section, table or list is empty.
 */
export interface CarBook {
  readonly workshop: string
  /** 'Dunmere Saloon' */
  readonly car: string
  /** 'Shell 0412' */
  readonly shell: string
  /** 'Saloon of 1964', or the body alone. */
  readonly body: string
  /** 'Sat 28 Nov 2026', the day that the book was made. */
  readonly written: string
  /** SHA-256 of the last line of the car's chain, hexadecimal. */
  readonly head: string
  /** The newest photo of the car as a whole; null without one. It is shown in its chapter too. */
  readonly picture: BookPhoto | null
  /** What the book is and how much it holds. */
  readonly about: readonly string[]
  /** What this copy leaves out; empty when nothing is. */
  readonly withheld: readonly string[]
  /** How a reader can check that nothing was changed. */
  readonly verify: readonly string[]
  /** What the book is not, and what must be inspected by others. */
  readonly cautions: readonly string[]
  readonly chapters: readonly BookChapter[]
}

export interface BookChapter {
  readonly title: string
  /** 'Left middle, on the shell, load-bearing'; empty for none. */
  readonly subtitle: string
  readonly sections: readonly BookSection[]
}

export interface BookSection {
  /** Empty for what opens a chapter. */
  readonly heading: string
  readonly blocks: readonly BookBlock[]
}

export type BookBlock =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Set apart: what the reader must know before the car is driven. */
  | { readonly kind: 'caution'; readonly text: string }
  | BookTable
  /** Dated lines below one another. */
  | { readonly kind: 'lines'; readonly lines: readonly BookLine[] }
  | { readonly kind: 'photos'; readonly photos: readonly BookPhoto[] }
  /** How a repair stands: its gates and a cut through its layers. */
  | { readonly kind: 'standing'; readonly section: SectionView; readonly marks: readonly StripMark[] }
  /** Which metal lies over which, from the outside at the top to the inside at the bottom. */
  | BookMap

export interface BookMap {
  readonly kind: 'map'
  readonly repairs: readonly (MapRepair & {
    readonly name: string
    /** 'finished', '3 of 8 gates' */
    readonly state: string
  })[]
  readonly covers: readonly MapCover[]
  readonly fits: readonly (MapFit & { readonly name: string })[]
}

export interface BookTable {
  readonly kind: 'table'
  readonly columns: readonly BookColumn[]
  /** One cell for each column; every figure carries its unit. */
  readonly rows: readonly (readonly string[])[]
}

export interface BookColumn {
  readonly head: string
  /** Part of the table's width, as against the other columns. */
  readonly share: number
}

export interface BookLine {
  /** 'Tue 24 Nov 2026, 10:40', or the number of a line of the record before it. */
  readonly lead: string
  readonly text: string
}

export interface BookPhoto {
  /** Photos are counted from 1 in reading order, so that words can name them. */
  readonly number: number
  readonly attachmentId: AttachmentId
  readonly sha256: string
  /** 'taken Tue 24 Nov 2026, 10:40', or when it was added where the photo has no date of its own. */
  readonly taken: string
  readonly caption: string
  readonly marks: PhotoMarks
}

/** Every photo of the book once, in reading order; the picture on the title page is one of them. */
export function bookPhotos({ chapters }: Pick<CarBook, 'chapters'>): readonly BookPhoto[] {
  return chapters.flatMap(({ sections }) =>
    sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'photos' ? block.photos : [])),
    ),
  )
}
