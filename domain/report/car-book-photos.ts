import type { AttachmentState, CarState } from '../car.ts'
import type { PhotoServes } from '../facts/work-facts.ts'
import { type Gate, gateOrder } from '../gates.ts'
import type { AttachmentId, RepairId, TaskId } from '../ids.ts'
import { english } from '../language/english.ts'
import { dayWords, joinWords, timeOfDay } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import { stampName, type ViewContext } from '../views/view-context.ts'
import type { BookBlock, BookPhoto } from './car-book-shapes.ts'
import { clause, sentence } from './car-book-words.ts'

/** Every photo of a car has one place in its book and a number, by which the words of other places name it. */
export interface PhotoNumbers {
  readonly count: number
  /** Photos of the car as a whole. */
  readonly ofCar: readonly BookPhoto[]
  readonly ofGate: (repairId: RepairId, gate: Gate) => readonly BookPhoto[]
  readonly ofTask: (taskId: TaskId) => readonly BookPhoto[]
  readonly numberOf: (id: AttachmentId) => number | null
}

type Home = 'car' | `${RepairId} ${Gate}` | TaskId

/** Counted from 1 as the book's chapters go: the car, its repairs gate by gate, its tasks; the oldest first in each. */
export function numberPhotos(car: CarState, context: ViewContext): PhotoNumbers {
  const byHome = Map.groupBy(
    [...car.attachments.values()].toSorted(
      (a, b) => a.countsAt - b.countsAt || a.stamp.number - b.stamp.number,
    ),
    (attachment) => homeOf(car, attachment),
  )
  const shown = new Map<Home, readonly BookPhoto[]>()
  const numbers = new Map<AttachmentId, number>()
  for (const home of homesOf(car)) {
    const photos = (byHome.get(home) ?? []).map((attachment) => {
      numbers.set(attachment.id, numbers.size + 1)
      return bookPhoto(car, attachment, numbers.size, context)
    })
    shown.set(home, photos)
  }
  const at = (home: Home): readonly BookPhoto[] => shown.get(home) ?? []
  return {
    count: numbers.size,
    ofCar: at('car'),
    ofGate: (repairId, gate) => at(`${repairId} ${gate}`),
    ofTask: at,
    numberOf: (id) => numbers.get(id) ?? null,
  }
}

function homesOf({ repairs, tasks }: CarState): readonly Home[] {
  return [
    'car',
    ...[...repairs.values()].flatMap(({ id, plan }) =>
      gateOrder(plan).map((gate) => `${id} ${gate}` as const),
    ),
    ...tasks.keys(),
  ]
}

/** Where it shows something first. */
function homeOf({ repairs, tasks }: CarState, { serves }: AttachmentState): Home {
  for (const each of serves) {
    if (each.what === 'gate' && repairs.has(each.repairId)) return `${each.repairId} ${each.gate}`
    if (each.what === 'task' && tasks.has(each.taskId)) return each.taskId
  }
  return 'car'
}

function bookPhoto(
  car: CarState,
  { id, sha256, caption, marks, taken, countsAt, serves, stamp }: AttachmentState,
  number: number,
  { workshop: { zone }, nameOf }: ViewContext,
): BookPhoto {
  const at = `${dayWords(localDateOf(countsAt, zone), 0)}, ${timeOfDay(countsAt, zone)}`
  return {
    number,
    attachmentId: id,
    sha256,
    taken: `${taken === countsAt ? 'taken' : 'added'} ${at}`,
    caption: `${captionWords(car, caption, serves)} Added by ${stampName(stamp, nameOf)}.`,
    marks,
  }
}

/** The person's own words with what the photo shows of its layers; without any, what it was attached to. */
function captionWords(car: CarState, caption: string, serves: readonly PhotoServes[]): string {
  const [first] = serves
  const own = sentence(caption)
  if (first === undefined || first.what === 'car') return own === '' ? sentence(car.name) : own
  if (first.what === 'task') return own === '' ? sentence(car.tasks.get(first.taskId)?.plan.name ?? '') : own
  const plan = car.repairs.get(first.repairId)?.plan
  const layers = (plan?.layers ?? [])
    .filter(({ layerId }) => serves.some((each) => each.what === 'gate' && each.layerId === layerId))
    .map(({ name }) => name)
  if (own === '')
    return sentence([plan?.name ?? '', ...layers, english.captions.shown(first.shows, first.gate)].join(', '))
  const more = [...layers, WHEN[first.shows]].filter(
    (word) => !own.toLowerCase().includes(word.toLowerCase()),
  )
  return more.length === 0 ? own : sentence(`${clause(own)} (${joinWords(more)})`)
}

type Shows = Extract<PhotoServes, { readonly what: 'gate' }>['shows']

/** Under a gate's own heading the gate need not be said again. */
const WHEN: Readonly<Record<Shows, string>> = {
  before: 'before',
  after: 'after',
  layer: '',
  work: '',
  prepared: 'cleaned again',
  'as left': 'as left',
}

/** Photos as a block, or nothing. */
export const photosBlock = (photos: readonly BookPhoto[]): readonly BookBlock[] =>
  photos.length === 0 ? [] : [{ kind: 'photos', photos }]

/** 'Photo 3', 'Photos 3, 7 and 8', and nothing for none that is known. */
export function photoNames({ numberOf }: PhotoNumbers, ids: readonly AttachmentId[]): string {
  const known = [...new Set(ids.flatMap((id) => numberOf(id) ?? []))].toSorted((a, b) => a - b)
  if (known.length === 0) return ''
  return `${known.length === 1 ? 'Photo' : 'Photos'} ${joinWords(known.map(String))}`
}

/** 'Photo 3 shows it as it was left.', 'Photos 3 and 7 show it ...'; nothing for none that is known. */
export function photosShow(numbers: PhotoNumbers, ids: readonly AttachmentId[], what: string): string {
  const names = photoNames(numbers, ids)
  return names === '' ? '' : `${names} ${names.startsWith('Photos') ? 'show' : 'shows'} ${what}.`
}
