import type { PhotoView } from '../../../domain/views/shared-views.ts'

/** What a photo without a caption shows. */
export function servesWords({ serves }: PhotoView): string {
  const first = serves[0]
  if (first === undefined) return 'photo'
  return [first.shows, first.gate, first.repairName].filter(Boolean).join(', ')
}
