import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { RepairId } from '../../../domain/ids.ts'
import type { SectionLayer } from '../../../domain/views/shared-views.ts'
import type { Shows } from './photo-aim.ts'

export type ShownLayers = readonly Pick<SectionLayer, 'id' | 'name'>[]

export interface ShownRepair {
  readonly repairId: RepairId
  readonly layers: ShownLayers
}

export const SHOWS_CHOICES: readonly { readonly value: Shows; readonly words: string }[] = [
  { value: 'before', words: 'before' },
  { value: 'work', words: 'the work' },
  { value: 'after', words: 'after' },
  { value: 'layer', words: 'a layer' },
  { value: 'prepared', words: 'prepared surface' },
  { value: 'as left', words: 'as left' },
]

/** 'opened, inner sill, before', and 'the car as a whole'. */
export function shownWords(serves: readonly PhotoServes[], layers: ShownLayers): string {
  const [first] = serves
  if (first === undefined || first.what === 'car') return 'the car as a whole'
  if (first.what === 'task') return 'a task'
  const layer = layers.find(({ id }) => id === first.layerId)?.name
  const shows = SHOWS_CHOICES.find(({ value }) => value === first.shows)?.words
  return [first.gate, layer, shows === 'a layer' && layer !== undefined ? undefined : shows]
    .filter(Boolean)
    .join(', ')
}
