import type { AttachmentState, RepairState } from '../car.ts'
import type { AttachmentId, RepairId, VariationId } from '../ids.ts'
import { marksInCrop } from '../photo-marks/marks-in-crop.ts'
import { capital } from '../text/words.ts'
import { photosByRepair } from '../views/photo-view.ts'
import type { PhotoPlate, ReportPhoto } from './owner-week-shapes.ts'
import { openQuestions } from './needs.ts'
import { type Crop, cropOf, type ReportChoices } from './report-choices.ts'
import { clause } from './sentences.ts'
import { dayOf, isInVisitWeek, type Telling, toldRepairs } from './telling.ts'

/** Which photos a report shows, and where. No photo is shown twice. */
export interface WeekPhotos {
  /** What a question to the owner is about. */
  readonly ofQuestions: ReadonlyMap<VariationId, readonly PhotoPlate[]>
  /** Before and after of what was done, by repair. */
  readonly ofWork: ReadonlyMap<RepairId, readonly PhotoPlate[]>
  /** What was found, by repair. */
  readonly ofFindings: ReadonlyMap<RepairId, readonly PhotoPlate[]>
  /** Chosen by the manager and told nowhere else. */
  readonly others: readonly PhotoPlate[]
}

/** Enough to see the week by, and a file that any mailbox takes. */
export const MOST_PHOTOS = 12
/** Of a letter that asks: more would make it a report, and the others are shown on the car. */
export const MOST_LETTER_PHOTOS = 6
const MOST_PER_QUESTION = 2

/**
 * @param choices its photos are the manager's; null chooses: what questions are about, a pair for every repair that was worked on, then
 * findings. A pair is the newest photo of the week that shows the work, beside the newest one before it that shows the same layer, or the
 * cavity, as it was.
 */
export function choosePhotos(telling: Telling, choices: PhotoChoices): WeekPhotos {
  const choice = createChoice(telling, choices)
  const ofQuestions = new Map<VariationId, readonly PhotoPlate[]>()
  for (const { id, attachments } of openQuestions(telling))
    ofQuestions.set(id, choice.singlesOf(attachments.slice(0, MOST_PER_QUESTION)))
  const ofWork = new Map<RepairId, readonly PhotoPlate[]>()
  for (const repair of toldRepairs(telling)) {
    const plate = choice.pairOf(repair)
    if (plate !== null) ofWork.set(repair.id, [plate])
  }
  const ofFindings = new Map<RepairId, readonly PhotoPlate[]>()
  for (const finding of telling.car.findings.values()) {
    if (!isInVisitWeek(telling, finding.stamp.happened)) continue
    const plates = choice.singlesOf(finding.attachments)
    if (plates.length > 0)
      ofFindings.set(finding.repairId, [...(ofFindings.get(finding.repairId) ?? []), ...plates])
  }
  return {
    ofQuestions,
    ofWork,
    ofFindings,
    others: choices.photos === null ? [] : choice.singlesOf(choices.photos),
  }
}

type GateServes = Extract<AttachmentState['serves'][number], { readonly what: 'gate' }>

interface RepairPhoto {
  readonly attachment: AttachmentState
  readonly serves: GateServes
}

type PhotoChoices = Pick<ReportChoices, 'photos' | 'crops'>

interface Choice {
  readonly pairOf: (repair: RepairState) => PhotoPlate | null
  readonly singlesOf: (ids: readonly AttachmentId[]) => readonly PhotoPlate[]
}

/** Remembers what was taken, so that no photo comes twice and no report holds too many. */
function createChoice(telling: Telling, { photos: picked, crops }: PhotoChoices): Choice {
  const offered = picked === null ? null : new Set(picked)
  const taken = new Set<string>()

  const mayTake = (attachments: readonly AttachmentState[]): boolean => {
    const fresh = new Set(attachments.map(({ sha256 }) => sha256))
    const isFresh = fresh.size === attachments.length && fresh.isDisjointFrom(taken)
    return isFresh && taken.size + fresh.size <= MOST_PHOTOS
  }
  const take = (attachment: AttachmentState): ReportPhoto => {
    taken.add(attachment.sha256)
    return reportPhoto(telling, attachment, cropOf({ crops }, attachment.id))
  }
  const single = (attachment: AttachmentState): PhotoPlate | null =>
    mayTake([attachment]) ? { kind: 'single', photo: take(attachment) } : null

  return {
    pairOf: (repair) => {
      const photos = repairPhotos(telling, repair).filter(
        ({ attachment }) => offered === null || offered.has(attachment.id),
      )
      const after = photoOfWork(
        photos.filter(({ attachment }) => isInVisitWeek(telling, attachment.countsAt)),
      )
      if (after === undefined) return null
      const earlier = photos.filter(({ attachment }) => attachment.countsAt < after.attachment.countsAt)
      const before = earlier.findLast((photo) => showsSame(photo, after)) ?? earlier.findLast(isBefore)
      if (before === undefined || !mayTake([before.attachment, after.attachment]))
        return single(after.attachment)
      return { kind: 'pair', before: take(before.attachment), after: take(after.attachment) }
    },
    singlesOf: (ids) =>
      ids.flatMap((id) => {
        const attachment = telling.car.attachments.get(id)
        const isOffered = attachment !== undefined && (offered === null || offered.has(id))
        return (isOffered && single(attachment)) || []
      }),
  }
}

/** Oldest first, those that show this repair. */
function repairPhotos({ car }: Telling, repair: RepairState): readonly RepairPhoto[] {
  return (photosByRepair(car).get(repair.id) ?? [])
    .toSorted((a, b) => a.countsAt - b.countsAt || a.stamp.number - b.stamp.number)
    .flatMap((attachment) => {
      const serves = attachment.serves.find((each) => each.what === 'gate' && each.repairId === repair.id)
      return serves?.what === 'gate' ? [{ attachment, serves }] : []
    })
}

/** The newest that shows work; where a repair was only opened, what came to light. */
function photoOfWork(photos: readonly RepairPhoto[]): RepairPhoto | undefined {
  return (
    photos.findLast(isOfWork) ??
    photos.findLast(
      ({ serves: { gate, shows } }) => gate === 'opened' && (shows === 'after' || shows === 'work'),
    )
  )
}

const isOfWork = ({ serves: { gate, shows } }: RepairPhoto): boolean =>
  shows === 'as left' ||
  (gate !== 'opened' && gate !== 'assessed' && shows !== 'before' && shows !== 'prepared')

const isBefore = (photo: RepairPhoto): boolean =>
  photo.serves.shows === 'before' || photo.serves.gate === 'opened' || photo.serves.gate === 'assessed'

/** The same layer as it was found. */
const showsSame = (photo: RepairPhoto, after: RepairPhoto): boolean =>
  after.serves.layerId !== null && photo.serves.layerId === after.serves.layerId && isBefore(photo)

export function reportPhoto(
  telling: Pick<Telling, 'car' | 'context' | 'say'>,
  attachment: AttachmentState,
  crop: Crop | null = null,
): ReportPhoto {
  const { id, sha256, caption, countsAt, marks } = attachment
  const words = caption.trim() === '' ? whatItShows(telling, attachment) : caption
  return {
    attachmentId: id,
    sha256,
    caption: capital(clause(words)),
    taken: dayOf(telling, countsAt),
    crop,
    marks: marksInCrop(marks, crop),
  }
}

/** 'Boot floor, right, membrane, before it was opened' */
function whatItShows({ car, say }: Pick<Telling, 'car' | 'say'>, { serves }: AttachmentState): string {
  const [first] = serves
  if (first === undefined || first.what === 'car') return car.name
  if (first.what === 'task') return car.tasks.get(first.taskId)?.plan.name ?? car.name
  const repair = car.repairs.get(first.repairId)
  if (repair === undefined) return car.name
  const layer = repair.plan.layers.find(({ layerId }) => layerId === first.layerId)?.name
  return [
    repair.plan.name,
    ...(layer === undefined ? [] : [layer]),
    say.captions.shown(first.shows, first.gate),
  ].join(', ')
}
