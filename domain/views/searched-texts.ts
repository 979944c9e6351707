import type { AttachmentState, CarState, Note, RepairState } from '../car.ts'
import type { Fact } from '../facts.ts'
import type { AttachmentId, CarId, RepairId } from '../ids.ts'
import { repairName } from './work-words.ts'

export const SEARCHED_KINDS = ['repair', 'photo', 'note'] as const
export type SearchedKind = (typeof SEARCHED_KINDS)[number]

/** A text of a car that can be found by its words. */
export interface SearchedText {
  /** Of the fact that made the repair, photo or note; the larger, the newer. */
  readonly number: number
  readonly kind: SearchedKind
  readonly carId: CarId
  /** Where it leads to; null for what is of the whole car. */
  readonly repairId: RepairId | null
  readonly attachmentId: AttachmentId | null
  /** Epoch milliseconds. */
  readonly at: number
  readonly text: string
  /** What it is of, which it is known by too. */
  readonly beside: string
}

export function searchedTexts(car: CarState): readonly SearchedText[] {
  return [
    ...[...car.repairs.values()].map((repair) => ofRepair(car, repair)),
    ...[...car.attachments.values()].flatMap((photo) => ofPhoto(car, photo)),
    ...car.notes.map((note) => ofNote(car, note)),
  ]
}

/** What a fact has done to the texts of its car; 'all' where it may have changed what any of them is known by. */
export type ChangedTexts = 'all' | readonly SearchedText[] | { readonly gone: number }

export function changedTexts(car: CarState, fact: Fact): ChangedTexts {
  switch (fact.kind) {
    case 'carChanged':
    case 'repairChanged':
    case 'repairSplit':
    case 'taskChanged':
      return 'all'
    case 'repairAdded':
      return [...car.repairs.values()]
        .filter(({ id }) => id === fact.payload.repairId)
        .map((repair) => ofRepair(car, repair))
    case 'noted':
      return car.notes.filter(({ stamp }) => stamp.number === fact.number).map((note) => ofNote(car, note))
    case 'photoAttached':
    case 'captionSet':
    case 'photoShowsSet': {
      const photo = car.attachments.get(fact.payload.attachmentId)
      if (photo === undefined) return []
      const texts = ofPhoto(car, photo)
      return texts.length > 0 ? texts : { gone: photo.stamp.number }
    }
    default:
      return []
  }
}

function ofRepair(car: CarState, { id, added, plan }: RepairState): SearchedText {
  return {
    number: added.number,
    kind: 'repair',
    carId: car.id,
    repairId: id,
    attachmentId: null,
    at: added.happened,
    text: plan.name,
    beside: '',
  }
}

/** A photo without a caption says nothing that it could be found by. */
function ofPhoto(car: CarState, photo: AttachmentState): readonly SearchedText[] {
  if (photo.caption === '') return []
  const [shown] = photo.serves
  const repairId = shown?.what === 'gate' ? shown.repairId : null
  const task = shown?.what === 'task' ? (car.tasks.get(shown.taskId)?.plan.name ?? '') : ''
  return [
    {
      number: photo.stamp.number,
      kind: 'photo',
      carId: car.id,
      repairId,
      attachmentId: photo.id,
      at: photo.countsAt,
      text: photo.caption,
      beside: repairId === null ? task : repairName(car, repairId),
    },
  ]
}

function ofNote(car: CarState, { text, stamp }: Note): SearchedText {
  return {
    number: stamp.number,
    kind: 'note',
    carId: car.id,
    repairId: null,
    attachmentId: null,
    at: stamp.happened,
    text,
    beside: '',
  }
}
