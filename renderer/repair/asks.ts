import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { Gate } from '../../domain/gates.ts'
import type { DimensionId, FitGroupId, LayerId } from '../../domain/ids.ts'
import type { SafetyItem } from '../../domain/car.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import type { AskView, RepairView } from '../../domain/views/view-shapes.ts'
import type { PhotoInOutbox } from '../outbox/create-outbox.ts'
import type { PhotoAim } from '../parts/use-photo-inputs.tsx'
import type { Doing } from './repair-context.ts'

type GatePhoto = Extract<PhotoServes, { what: 'gate' }>
export type Shows = GatePhoto['shows']

export const isPhotoAsk = ({ kind }: AskView): boolean =>
  kind === 'photo before' || kind === 'photo' || kind === 'layer photo'

/** What a photo shows that answers the ask. */
export function askShows({ kind }: AskView, gate: Gate): Shows {
  if (kind === 'photo before') return 'before'
  if (kind === 'layer photo') return 'layer'
  return gate === 'opened' ? 'after' : 'work'
}

export function gatePhoto(
  { repair }: RepairView,
  gate: Gate,
  shows: Shows,
  layerId: string | null = null,
): GatePhoto {
  return { what: 'gate', repairId: repair.id, gate, shows, layerId: layerId as LayerId | null }
}

export function askAim(view: RepairView, ask: AskView, gate: Gate): PhotoAim {
  return { serves: [gatePhoto(view, gate, askShows(ask, gate), ask.layerId)], caption: '' }
}

/** The first photo that the next gate still asks for, those on their way counted; null when all are there. */
export function nextPhotoAsk(view: RepairView, onTheirWay: readonly PhotoInOutbox[]): AskView | null {
  const { next } = view
  if (next === null) return null
  return (
    next.asks.find(
      (ask) =>
        isPhotoAsk(ask) && !ask.met && photosOnTheirWay(view, ask, next.gate, onTheirWay) < stillWanted(ask),
    ) ?? null
  )
}

/** Photos of this repair that are still on this device. */
export function ownPhotos(view: RepairView, photos: readonly PhotoInOutbox[]): readonly PhotoInOutbox[] {
  return photos.filter(({ serves }) =>
    serves.some((each) => each.what === 'gate' && each.repairId === view.repair.id),
  )
}

export function photosOnTheirWay(
  view: RepairView,
  ask: AskView,
  gate: Gate,
  photos: readonly PhotoInOutbox[],
): number {
  const shows = askShows(ask, gate)
  return ownPhotos(view, photos).filter(
    (photo) =>
      photo.state !== 'refused' &&
      photo.serves.some(
        (each) =>
          each.what === 'gate' &&
          each.gate === gate &&
          each.shows === shows &&
          (ask.layerId === null || each.layerId === ask.layerId),
      ),
  ).length
}

/** 'have' reads '1 of 2'. */
function stillWanted({ have }: AskView): number {
  const [there = 0, wanted = 1] = have.split(' of ').map(Number)
  return Math.max(1, wanted - there)
}

/** The form that answers an ask; null for what is done without one. */
export function askDoing(ask: AskView, gate: Gate): Doing | null {
  switch (ask.kind) {
    case 'layer grade':
      return { kind: 'grade', layerId: ask.layerId as LayerId }
    case 'safety':
      return ask.subject === 'dimensions'
        ? { kind: 'add dimension' }
        : { kind: 'safety', item: ask.subject as SafetyItem }
    case 'review':
      return { kind: 'review' }
    case 'drains':
      return { kind: 'drains' }
    case 'conditions':
      return { kind: 'conditions', gate }
    case 'fit-up':
      return { kind: 'fit-up', groupId: ask.subject as FitGroupId }
    case 'dimension':
      return { kind: 'dimension', dimensionId: ask.subject as DimensionId }
    case 'welds':
      return { kind: 'welds' }
    case 'photo before':
    case 'photo':
    case 'layer photo':
    case 'layer repaired':
      return null
  }
}

/** Holds that are not said by the line of an ask already, and whose skill somebody has asked to be let pass. */
export function otherHolds({
  asks,
  holds,
  skillHolds,
}: NonNullable<RepairView['next']>): readonly HoldView[] {
  const said = new Set(asks.filter((ask) => !ask.met).map((ask) => ask.key))
  return [
    ...holds.filter((hold) => hold.released !== null || !said.has(hold.subject)),
    ...skillHolds.filter(({ asked, released }) => asked || released !== null),
  ]
}
