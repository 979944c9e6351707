import type { OutboxState, PhotoInOutbox } from './board.ts'
import { waitingChange } from './waiting-change.ts'

/**
 * Photos that no screen counts yet, each once, with what they show as it was put right here: those that are still on this device,
 * and those that the host has taken in a moment ago.
 */
export function photosUnderWay({
  photos,
  arriving,
  commands,
}: Pick<OutboxState, 'photos' | 'arriving' | 'commands'>): readonly PhotoInOutbox[] {
  const here = new Set(photos.map(({ attachmentId }) => attachmentId))
  return [...photos, ...arriving.filter(({ attachmentId }) => !here.has(attachmentId))].map((photo) => {
    const { serves = photo.serves } = waitingChange(commands, photo.attachmentId)
    return { ...photo, serves }
  })
}
