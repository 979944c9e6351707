import type { AttachmentState, CarState } from '../car.ts'
import type { PhotoServes } from '../facts/work-facts.ts'
import type { AttachmentId, RepairId } from '../ids.ts'
import { perRevision } from '../value/per-revision.ts'
import type { NameOf, PhotoView } from './shared-views.ts'
import { stampName } from './view-context.ts'
import { repairName } from './work-words.ts'

export function photoView(car: CarState, attachment: AttachmentState, nameOf: NameOf): PhotoView {
  return {
    attachmentId: attachment.id,
    sha256: attachment.sha256,
    caption: attachment.caption,
    marks: attachment.marks,
    taken: attachment.countsAt,
    cameraDated: attachment.taken !== null && attachment.taken === attachment.countsAt,
    by: stampName(attachment.stamp, nameOf),
    serves: attachment.serves.map((serves) => servesView(car, serves)),
  }
}

/** Known photos among the ids, in their order. */
export function photoViews(
  car: CarState,
  ids: readonly AttachmentId[],
  nameOf: NameOf,
): readonly PhotoView[] {
  return ids.flatMap((id) => {
    const attachment = car.attachments.get(id)
    return attachment === undefined ? [] : [photoView(car, attachment, nameOf)]
  })
}

/** Photos that show anything of a repair, by repair, the oldest first. */
export const photosByRepair = perRevision((car): ReadonlyMap<RepairId, readonly AttachmentState[]> => {
  const photos = new Map<RepairId, AttachmentState[]>()
  for (const attachment of car.attachments.values())
    for (const id of new Set(attachment.serves.flatMap(repairOf))) {
      const known = photos.get(id)
      if (known === undefined) photos.set(id, [attachment])
      else known.push(attachment)
    }
  return photos
})

/** The car's own picture: the last photo that shows the car as a whole; null without one. */
export const carPhoto = perRevision(
  (car): string | null =>
    [...car.attachments.values()].findLast(({ serves }) => serves.some(({ what }) => what === 'car'))
      ?.sha256 ?? null,
)

const repairOf = (serves: PhotoServes): readonly RepairId[] =>
  serves.what === 'gate' ? [serves.repairId] : []

function servesView(car: CarState, serves: PhotoServes): PhotoView['serves'][number] {
  const whole = { repairId: null, repairName: '', gate: null, layerId: null, shows: 'car' }
  switch (serves.what) {
    case 'gate': {
      const { repairId, gate, layerId, shows } = serves
      return { repairId, repairName: repairName(car, repairId), gate, layerId, shows }
    }
    case 'task':
      return { ...whole, repairName: car.tasks.get(serves.taskId)?.plan.name ?? 'a task', shows: 'work' }
    case 'car':
      return whole
  }
}
