import type { AskView } from './view-shapes.ts'

/** Answered by taking a photo. */
export const isPhotoAsk = ({ kind }: Pick<AskView, 'kind'>): boolean =>
  kind === 'photo before' || kind === 'photo' || kind === 'layer photo'
