import type { TypedCommand } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId, CarId, CommandId, PersonId } from '../../domain/ids.ts'
import { plural } from '../../domain/text/words.ts'
import { newId } from '../parts/form/new-id.ts'
import type { PlacedPhoto } from './places.ts'

export interface Attaching {
  readonly by: PersonId
  /** ISO 8601, by this device's clock. */
  readonly made: string
  /** 'The camera’s clock is 1 h 4 min slow.', and the photo that says so, in words; null without a correction. */
  readonly correction: { readonly words: string; readonly reference: string } | null
}

export type AttachCommand = TypedCommand<'attachPhoto'>

/**
 * One command for each photo, in the order in which they were taken. The fact states the corrected time, by which the
 * photo counts from then on; what the camera showed stays in the photo itself.
 */
export function attachCommands(
  photos: readonly PlacedPhoto[],
  attaching: Attaching,
): readonly AttachCommand[] {
  return photos.flatMap(({ place, sha256, takenIso }) => {
    if (place === null) return []
    const attachmentId = newId<AttachmentId>()
    const payload = { attachmentId, sha256, taken: takenIso, caption: '', serves: [place.serves] }
    return [{ ...envelope(place.carId, attaching), kind: 'attachPhoto' as const, payload }]
  })
}

/** A note for each car, so that its record says that times were put right, by whom and by which photo. */
export function correctionNotes(
  attached: readonly AttachCommand[],
  attaching: Attaching,
): readonly TypedCommand<'addNote'>[] {
  const { correction } = attaching
  if (correction === null) return []
  const dated = attached.filter(({ payload }) => payload.taken !== null)
  return [...Map.groupBy(dated, ({ carId }) => carId)].map(([carId, ofCar]) => {
    const text = `${plural('photo', ofCar.length)} came from a camera card. ${correction.words} The times were put right by ${correction.reference}.`
    return { ...envelope(carId, attaching), kind: 'addNote' as const, payload: { text } }
  })
}

function envelope(carId: CarId | null, { by, made }: Attaching) {
  const none = { seen: null, code: null, second: null, happened: null } as const
  return { ...none, id: newId<CommandId>(), carId, by, made }
}
