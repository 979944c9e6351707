import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { Gate } from '../../../domain/gates.ts'
import type { LayerId, RepairId } from '../../../domain/ids.ts'
import type { SectionLayer } from '../../../domain/views/shared-views.ts'
import { isPhotoAsk } from '../../../domain/views/photo-ask.ts'
import type { AskView } from '../../../domain/views/view-shapes.ts'
import type { PhotoInOutbox } from '../../outbox/board.ts'
import type { PhotoAim } from './use-photo-inputs.tsx'

export type GatePhoto = Extract<PhotoServes, { what: 'gate' }>
export type Shows = GatePhoto['shows']

/** A repair at its next gate, or at its last one when all are done, with what that gate asks for. */
export interface PhotoWork {
  readonly repairId: RepairId
  readonly gate: Gate
  readonly asks: readonly AskView[]
  readonly layers: readonly Pick<SectionLayer, 'id' | 'name'>[]
}

/** What a photo shows that answers the ask. */
function askShows({ kind }: AskView, gate: Gate): Shows {
  if (kind === 'photo before') return 'before'
  if (kind === 'layer photo') return 'layer'
  return workShows(gate)
}

const workShows = (gate: Gate): Shows => (gate === 'opened' ? 'after' : 'work')

export function gatePhoto(
  repairId: RepairId,
  gate: Gate,
  shows: Shows,
  layerId: string | null = null,
): GatePhoto {
  return { what: 'gate', repairId, gate, shows, layerId: layerId as LayerId | null }
}

export function askAim({ repairId, gate }: PhotoWork, ask: AskView): PhotoAim {
  return { serves: [gatePhoto(repairId, gate, askShows(ask, gate), ask.layerId)], caption: '' }
}

export interface NextPhoto {
  readonly aim: PhotoAim
  /** 'before cutting', 'inner sill', 'of the work at sealed' */
  readonly words: string
}

/** The first photo that the gate still asks for, those on their way counted; when all are there, one of the work. */
export function nextPhoto(work: PhotoWork, sending: readonly PhotoInOutbox[]): NextPhoto {
  const { repairId, gate, asks, layers } = work
  const ask = asks.find(
    (each) => isPhotoAsk(each) && !each.met && photosOnTheirWay(work, each, sending) < each.photosMissing,
  )
  if (ask === undefined) {
    const serves = [gatePhoto(repairId, gate, workShows(gate))]
    return { aim: { serves, caption: '' }, words: `of the work at ${gate}` }
  }
  const layer = layers.find(({ id }) => id === ask.layerId)
  return { aim: askAim(work, ask), words: layer?.name ?? AIM_WORDS[askShows(ask, gate)] }
}

/** Those of a repair. */
export function ownPhotos(repairId: RepairId, photos: readonly PhotoInOutbox[]): readonly PhotoInOutbox[] {
  return photos.filter(({ serves }) =>
    serves.some((each) => each.what === 'gate' && each.repairId === repairId),
  )
}

export function photosOnTheirWay(
  { repairId, gate }: PhotoWork,
  ask: AskView,
  photos: readonly PhotoInOutbox[],
): number {
  const shows = askShows(ask, gate)
  return ownPhotos(repairId, photos).filter(
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

const AIM_WORDS = {
  before: 'before cutting',
  after: 'after cutting',
  layer: 'a layer',
  work: 'of the work',
  prepared: 'the prepared surface',
  'as left': 'as left',
} as const
