import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { RepairId } from '../../../domain/ids.ts'
import type { SectionLayer } from '../../../domain/views/shared-views.ts'
import type { Shows } from './photo-aim.ts'

export type ShownLayers = readonly Pick<SectionLayer, 'id' | 'name'>[]

export interface ShownRepair {
  readonly repairId: RepairId
  readonly layers: ShownLayers
}

export const SHOWS_WORDS: Readonly<Record<Shows, string>> = {
  before: 'before',
  work: 'the work',
  after: 'after',
  layer: 'a layer',
  prepared: 'prepared surface',
  'as left': 'as left',
}

export const SHOWS_CHOICES = Object.entries(SHOWS_WORDS).map(([value, words]) => ({
  value: value as Shows,
  words,
}))

/** 'opened, inner sill, before', and 'the car as a whole'. */
export function shownWords(serves: readonly PhotoServes[], layers: ShownLayers): string {
  const [first] = serves
  if (first === undefined || first.what === 'car') return 'the car as a whole'
  if (first.what === 'task') return 'a task'
  const layer = layers.find(({ id }) => id === first.layerId)?.name
  const shows = SHOWS_WORDS[first.shows]
  return [first.gate, layer, first.shows === 'layer' && layer !== undefined ? undefined : shows]
    .filter(Boolean)
    .join(', ')
}
