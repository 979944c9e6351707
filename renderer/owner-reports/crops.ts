import type { Crop, ReportChoices } from '../../domain/report/report-choices.ts'
import type { AttachmentId } from '../../domain/ids.ts'

export const WHOLE: Crop = { left: 0, top: 0, width: 1, height: 1 }

/** No side of a cut is shorter than this share of the photo's. */
const LEAST = 0.05

export type CropEdge = 'left' | 'right' | 'top' | 'bottom'

/** The same cut elsewhere on the photo; shares of the photo. */
export function moveCrop(crop: Crop, dx: number, dy: number): Crop {
  return {
    ...crop,
    left: within(crop.left + dx, 0, 1 - crop.width),
    top: within(crop.top + dy, 0, 1 - crop.height),
  }
}

/** The edges named go along, the others stay. */
export function stretchCrop(crop: Crop, edges: readonly CropEdge[], dx: number, dy: number): Crop {
  const right = crop.left + crop.width
  const bottom = crop.top + crop.height
  const left = edges.includes('left') ? within(crop.left + dx, 0, right - LEAST) : crop.left
  const top = edges.includes('top') ? within(crop.top + dy, 0, bottom - LEAST) : crop.top
  return {
    left,
    top,
    width: exact((edges.includes('right') ? within(right + dx, left + LEAST, 1) : right) - left),
    height: exact((edges.includes('bottom') ? within(bottom + dy, top + LEAST, 1) : bottom) - top),
  }
}

/** A cut with one of its figures typed anew; what no longer fits beside it gives way. */
export function setCrop(crop: Crop, name: keyof Crop, share: number): Crop {
  const { left, top, width, height }: Crop = { ...crop, [name]: share }
  const kept = { width: within(width, LEAST, 1), height: within(height, LEAST, 1) }
  return moveCrop({ left: 0, top: 0, ...kept }, left, top)
}

export const isWhole = ({ left, top, width, height }: Crop): boolean =>
  left === 0 && top === 0 && width === 1 && height === 1

/** Choices in which one photo is cut like this; null shows the whole photo. */
export function withCrop(
  { crops }: ReportChoices,
  attachmentId: AttachmentId,
  crop: Crop | null,
): ReportChoices['crops'] {
  const others = crops.filter((each) => each.attachmentId !== attachmentId)
  return crop === null ? others : [...others, { attachmentId, crop }]
}

/** Whole thousandths: a cut is typed and compared in them. */
const exact = (share: number): number => Math.round(share * 1000) / 1000
const within = (share: number, least: number, most: number): number =>
  exact(Math.min(Math.max(share, least), most))
