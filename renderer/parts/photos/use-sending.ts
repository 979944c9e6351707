import type { PhotoInOutbox } from '../../outbox/board.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { waitingChange } from '../../outbox/waiting-change.ts'

/** Photos that are still on this device, with what they show as it was put right here. */
export function useSending(): readonly PhotoInOutbox[] {
  const { photos, commands } = useOutbox()
  if (commands.length === 0) return photos
  return photos.map((photo) => {
    const { serves = photo.serves } = waitingChange(commands, photo.attachmentId)
    return { ...photo, serves }
  })
}
