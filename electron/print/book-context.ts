import { PAGE, type Paper, type Struct } from './paper.ts'
import type { BookPhoto } from '../../domain/report/car-book-shapes.ts'
import type { PhotoBox, PreparedPhoto } from './photo-box.ts'

/** A photo in the size that it is printed in, made when its turn comes; null when its file cannot be read. */
export type LoadBookPhoto = (photo: BookPhoto, box: PhotoBox) => Promise<PreparedPhoto | null>

/** What a book is written with; photos come one row at a time. */
export interface BookContext {
  readonly paper: Paper
  readonly photos: LoadBookPhoto
  /** Waits until the disk has taken what was written, and throws when the book was stopped or the disk failed. */
  readonly keepUp: () => Promise<void>
  /** The head of every page, by its index; null for pages without one. */
  readonly heads: Map<number, string>
  readonly wrotePhoto: () => void
}

export const FOOT = PAGE.height - PAGE.bottom

/** Opens a part of the document whose content comes with waiting between. */
export async function partInTime(
  paper: Paper,
  parent: Struct,
  tag: string,
  fill: (struct: Struct) => Promise<void>,
): Promise<void> {
  const struct = paper.doc.struct(tag)
  parent.add(struct)
  await fill(struct)
  struct.end()
}

export function newPage(paper: Paper): void {
  paper.doc.addPage()
  paper.y = PAGE.top
}
