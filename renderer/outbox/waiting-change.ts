import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { AttachmentId } from '../../domain/ids.ts'
import type { PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import type { KeptCommand } from './kept.ts'

/** What may be said of a photo after it was taken. */
export interface PhotoChange {
  readonly serves?: readonly PhotoServes[]
  readonly caption?: string
  readonly marks?: PhotoMarks
}

/** What was said of a photo on this device and has not reached the host yet. */
export function waitingChange(commands: readonly KeptCommand[], id: AttachmentId): PhotoChange {
  return commands.reduce<PhotoChange>((so, { command }) => ({ ...so, ...changeBy(command, id) }), {})
}

function changeBy({ kind, payload }: KeptCommand['command'], id: AttachmentId): PhotoChange {
  if (kind !== 'setCaption' && kind !== 'markPhoto' && kind !== 'setPhotoShows') return {}
  // The outbox holds what a screen of this program made.
  const { attachmentId, ...change } = payload as PhotoChange & { readonly attachmentId: AttachmentId }
  return attachmentId === id ? change : {}
}
