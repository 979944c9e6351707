import type { PhotoFacts } from '../../db/photos/inspect-photo.ts'
import type { PhotoResult } from '../../db/photos/photo-problem.ts'

/** What the image worker is asked, one at a time. */
export type ImageJob =
  | { readonly kind: 'inspect'; readonly path: string }
  | { readonly kind: 'make-sizes'; readonly folder: string; readonly sha256: string }

/** What it answers, by kind. */
export interface ImageAnswers {
  readonly inspect: PhotoResult<PhotoFacts>
  readonly 'make-sizes': PhotoResult<true>
}
