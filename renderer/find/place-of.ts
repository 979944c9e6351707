import type { Found } from '../../domain/views/find-shapes.ts'

/** Where what was found is shown, as an address within the program. */
export function placeOf({ carId, repairId, attachmentId, line }: Found): string {
  if (carId === null) return '/workshop?sheet=contacts'
  const photo = attachmentId === null ? '' : encodeURIComponent(attachmentId)
  if (repairId !== null) return `/cars/${carId}/repairs/${repairId}${photo && `?photo=${photo}`}`
  if (photo !== '') return `/cars/${carId}?sheet=photos&photo=${photo}`
  return line === null ? `/cars/${carId}` : `/cars/${carId}?sheet=record&line=${line}`
}
