import type { AttachmentState, CarState, RepairState, Stamp } from '../car.ts'
import type { Fact } from '../facts.ts'
import { GATES } from '../gates.ts'
import type { AttachmentId, CarId, RepairId, TaskId } from '../ids.ts'
import { repairName } from './work-words.ts'

export const SEARCHED_KINDS = ['repair', 'photo', 'note'] as const
export type SearchedKind = (typeof SEARCHED_KINDS)[number]

/** A text of a car that can be found by its words. */
export interface SearchedText {
  /** Of the fact that made the repair or photo, or holds the note; the larger, the newer. */
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

/** All texts of a car that people can search for, in no order; retired repairs are found too. */
export function searchedTexts(car: CarState): readonly SearchedText[] {
  return [
    ...[...car.repairs.values()].map((repair) => ofRepair(car, repair)),
    ...[...car.attachments.values()].flatMap((photo) => ofPhoto(car, photo)),
    ...notesOf(car),
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
    case 'gateReopened':
    case 'taskReopened':
    case 'shellReturned':
      return 'all'
    case 'repairAdded':
      return [...car.repairs.values()]
        .filter(({ id }) => id === fact.payload.repairId)
        .map((repair) => ofRepair(car, repair))
    case 'noted':
    case 'findingAdded':
    case 'holdSet':
    case 'gatePassed':
    case 'gateNotNeeded':
    case 'taskSigned':
    case 'taskNotNeeded':
      return notesOf(car).filter(({ number }) => number === fact.number)
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
  const task = shown?.what === 'task' ? taskName(car, shown.taskId) : ''
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

/**
 * What people wrote: notes on the car, what was found, holds that were set by hand, and what was noted with gates and tasks that
 * are done; of those taken back since, the record alone tells.
 */
function notesOf(car: CarState): readonly SearchedText[] {
  const note = (stamp: Stamp, text: string, beside = '', repairId: RepairId | null = null) =>
    text === ''
      ? []
      : [{ ...NOTE, number: stamp.number, carId: car.id, repairId, at: stamp.happened, text, beside }]
  return [
    ...car.notes.flatMap(({ stamp, text }) => note(stamp, text)),
    ...[...car.findings.values()].flatMap(({ stamp, repairId, extent, needs }) =>
      note(stamp, `${extent}; needs ${needs}`, repairName(car, repairId), repairId),
    ),
    ...[...car.holds.values()].flatMap(({ stamp, scope, words }) =>
      scope.kind === 'gate' || scope.kind === 'repair'
        ? note(stamp, words, repairName(car, scope.repairId), scope.repairId)
        : note(stamp, words, scope.kind === 'task' ? taskName(car, scope.taskId) : ''),
    ),
    ...[...car.repairs.values()].flatMap(({ id, plan, gates }) =>
      GATES.flatMap((gate) => {
        const { done } = gates[gate]
        if (done === null) return []
        return note(done.stamp, done.kind === 'passed' ? done.note : done.reason, `${plan.name}: ${gate}`, id)
      }),
    ),
    ...[...car.tasks.values()].flatMap(({ plan, done }) =>
      done === null ? [] : note(done.stamp, done.note, plan.name),
    ),
  ]
}

const NOTE = { kind: 'note', attachmentId: null } as const

const taskName = (car: CarState, taskId: TaskId): string => car.tasks.get(taskId)?.plan.name ?? ''
