import type { CarToChoose, CardProposal } from '../../domain/import/photo-proposal.ts'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import type { Sureness } from '../../domain/import/photo-match-shapes.ts'
import { carById } from './card-shapes.ts'
import type { Place } from './places.ts'
import { SHOWS_WORDS } from '../parts/photos/shown-words.ts'

export const SURE_WORDS: Readonly<Record<Sureness | 'by hand', string>> = {
  certain: 'certain',
  likely: 'likely',
  'several fit': 'several fit',
  none: 'nothing fits',
  'by hand': 'chosen by hand',
}

/** 'Boot floor, right: fabricated'; 'the car as a whole'. */
export function workWords(car: CarToChoose | undefined, serves: PhotoServes): string {
  switch (serves.what) {
    case 'gate': {
      const repair = car?.repairs.find(({ id }) => id === serves.repairId)
      return `${repair?.name ?? 'a repair'}: ${serves.gate}`
    }
    case 'task':
      return car?.tasks.find(({ id }) => id === serves.taskId)?.name ?? 'a task'
    case 'car':
      return 'the car as a whole'
  }
}

/** 'before'; 'the inner panel' for a photo of one layer. */
export function showsWords(car: CarToChoose | undefined, serves: PhotoServes): string {
  if (serves.what !== 'gate') return ''
  const layer = car?.repairs
    .find(({ id }) => id === serves.repairId)
    ?.layers.find(({ id }) => id === serves.layerId)
  if (layer === undefined) return SHOWS_WORDS[serves.shows]
  return serves.shows === 'layer' ? `the ${layer.name}` : `${SHOWS_WORDS[serves.shows]}, the ${layer.name}`
}

/** 'Dunmere Saloon, Boot floor, right: fabricated' */
export function placeWords(proposal: CardProposal, { carId, serves }: Place): string {
  const car = carById(proposal, carId)
  return `${car?.name ?? 'a car'}, ${workWords(car, serves)}`
}
