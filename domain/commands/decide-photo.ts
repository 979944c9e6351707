import type { CarState } from '../car.ts'
import { fact } from '../facts.ts'
import type { PhotoServes } from '../facts/work-facts.ts'
import type { AttachmentId } from '../ids.ts'
import { joinWords } from '../text/words.ts'
import { photoRefusal } from './decide-car.ts'
import { firstRefusal, onCar, record, refuseIf, type Decider, type Refused } from './deciders.ts'

type PhotoKind = 'attachPhoto' | 'setCaption' | 'setPhotoShows' | 'markPhoto'

export const photoDeciders: { readonly [K in PhotoKind]: Decider<K> } = {
  attachPhoto: onCar(
    (payload, context) =>
      firstRefusal(
        refuseIf(
          context.car.attachments.has(payload.attachmentId),
          'already',
          'This photo is attached already.',
          'Nothing to do.',
        ),
        photoRefusal(context, payload.sha256),
        ...payload.serves.map((serves) => servesRefusal(context.car, serves)),
      ) ?? record(fact('photoAttached', payload)),
  ),
  setCaption: onCar(
    (payload, { car }) => unknownPhoto(car, payload.attachmentId) ?? record(fact('captionSet', payload)),
  ),
  markPhoto: onCar(
    (payload, { car }) => unknownPhoto(car, payload.attachmentId) ?? record(fact('photoMarked', payload)),
  ),
  setPhotoShows: onCar(
    (payload, { car }) =>
      firstRefusal(
        unknownPhoto(car, payload.attachmentId),
        reliedOnRefusal(car, payload.attachmentId),
        ...payload.serves.map((serves) => servesRefusal(car, serves)),
      ) ?? record(fact('photoShowsSet', payload)),
  ),
}

const unknownPhoto = (car: CarState, id: AttachmentId): Refused | null =>
  refuseIf(!car.attachments.has(id), 'unknown', 'This photo is not known.', 'Reload the car.')

/** What was signed or stated by a photo rests on what it showed then. */
const reliedOnRefusal = (car: CarState, id: AttachmentId): Refused | null => {
  const what = [...gatesSignedBy(car, id), ...statedBy(car, id)]
  return refuseIf(
    what.length > 0,
    'needed-later',
    `What this photo shows was signed for: ${joinWords([...new Set(what)])}.`,
    'Leave it and take another photo, or have the manager reopen that first.',
  )
}

function gatesSignedBy({ repairs }: CarState, id: AttachmentId): readonly string[] {
  return [...repairs.values()].flatMap(({ plan, gates, closedAsFound }) => [
    ...Object.entries(gates).flatMap(([gate, { done }]) =>
      done?.kind === 'passed' && done.attachments.includes(id) ? [`${plan.name}, ${gate}`] : [],
    ),
    ...(closedAsFound?.attachments.includes(id) ? [`${plan.name}, closed as found`] : []),
  ])
}

/**
 * A surface that was prepared and a layer that was closed over name no photo in the car's state, so any that shows them
 * counts as the one they rest on.
 */
function statedBy(car: CarState, id: AttachmentId): readonly string[] {
  const photo = car.attachments.get(id)
  if (photo === undefined) return []
  return photo.serves.flatMap((serves) => {
    if (serves.what === 'task') {
      const task = car.tasks.get(serves.taskId)
      return task?.status === 'passed' ? [task.plan.name] : []
    }
    const repair = serves.what === 'gate' ? car.repairs.get(serves.repairId) : undefined
    if (serves.what !== 'gate' || repair === undefined) return []
    const { name, layers } = repair.plan
    const isPrepared = serves.shows === 'prepared' && repair.prepared.length > 0
    const closed = layers.find(
      ({ layerId }) =>
        layerId === serves.layerId &&
        (repair.layers.get(layerId)?.closedOver?.number ?? 0) > photo.stamp.number,
    )
    return [
      ...(isPrepared ? [`${name}, prepared again`] : []),
      ...(closed === undefined ? [] : [`${name}, ${closed.name} closed over`]),
    ]
  })
}

const servesRefusal = (car: CarState, serves: PhotoServes): Refused | null => {
  if (serves.what === 'car') return null
  if (serves.what === 'task')
    return refuseIf(
      !car.tasks.has(serves.taskId),
      'unknown',
      'The task of this photo is not known.',
      'Reload the car.',
    )
  const repair = car.repairs.get(serves.repairId)
  return firstRefusal(
    refuseIf(!repair, 'unknown', 'The repair of this photo is not known.', 'Reload the car.'),
    refuseIf(
      serves.layerId !== null && !repair?.layers.has(serves.layerId),
      'unknown',
      'The layer of this photo is not known.',
      'Choose a layer of the repair.',
    ),
  )
}
