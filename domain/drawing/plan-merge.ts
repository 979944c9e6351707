import type { PlannedWork } from '../plan/plan.ts'
import { MS_PER_DAY, MS_PER_HOUR } from '../time/zone.ts'
import type { CarBlock, MixedBlock, MoveBlock, PersonRow, WorkBlock } from './plan-rows.ts'
import type { TimeScale } from './plan-scale.ts'

type PersonBlock = PersonRow['blocks'][number]

/** From so many units a day on every piece of work is drawn by itself. */
const SINGLE_FROM = 64
/** A pause of up to 16 hours is a night; one of three days a weekend. Both do not part work on the same car. */
const NIGHT_MS = 16 * MS_PER_HOUR
const WEEKEND_MS = 72 * MS_PER_HOUR
/** Narrower than this nothing can be told apart; such pieces are drawn together up to the second width. */
const NARROW = 6
const MIXED_WIDTH = 14

/**
 * The blocks of one person as they can be seen at this scale. Zoomed out, work on the same car becomes one block, and what
 * is still too narrow becomes blocks of several cars. Nothing is left out, and blocks stay in order and apart.
 */
export function mergeBlocks(blocks: readonly PersonBlock[], scale: TimeScale): readonly PersonBlock[] {
  if (scale.perDay >= SINGLE_FROM) return blocks
  return joinNarrow(joinCars(blocks, scale), scale)
}

function joinCars(blocks: readonly PersonBlock[], scale: TimeScale): readonly PersonBlock[] {
  const pause = scale.perDay >= SINGLE_FROM / 4 ? NIGHT_MS : WEEKEND_MS
  const joined: PersonBlock[] = []
  for (const block of blocks) {
    const last = joined.at(-1)
    const isNext = last !== undefined && block.from - last.to <= pause
    if (isNext && isOfCar(last) && isOfCar(block) && last.carId === block.carId) {
      joined[joined.length - 1] = carBlock(last, block)
    } else joined.push(block)
  }
  return joined
}

function joinNarrow(blocks: readonly PersonBlock[], scale: TimeScale): readonly PersonBlock[] {
  const width = (from: number, to: number): number => ((to - from) / MS_PER_DAY) * scale.perDay
  const joined: PersonBlock[] = []
  for (const block of blocks) {
    const last = joined.at(-1)
    const isNarrow = width(block.from, block.to) < NARROW
    const mayTake =
      last !== undefined &&
      block.from - last.to <= WEEKEND_MS &&
      width(last.from, block.to) <= MIXED_WIDTH &&
      (last.kind === 'mixed' || width(last.from, last.to) < NARROW)
    if (isNarrow && mayTake) joined[joined.length - 1] = mixedBlock(last, block)
    else joined.push(block)
  }
  return joined
}

const isOfCar = (block: PersonBlock): block is WorkBlock | CarBlock =>
  block.kind === 'work' || block.kind === 'car'

const carBlock = (first: WorkBlock | CarBlock, next: WorkBlock | CarBlock): CarBlock => ({
  kind: 'car',
  key: first.key,
  carId: first.carId,
  from: first.from,
  to: Math.max(first.to, next.to),
  works: [...worksOf(first), ...worksOf(next)],
})

/** A move within it is told by no work of its own: the move stands between the bays too. */
const mixedBlock = (first: PersonBlock, next: PersonBlock): MixedBlock => ({
  kind: 'mixed',
  key: first.key,
  from: first.from,
  to: Math.max(first.to, next.to),
  works: [...worksOf(first), ...worksOf(next)],
})

/** The gates and tasks in a block. */
export function worksOf(block: WorkBlock | CarBlock | MixedBlock | MoveBlock): readonly PlannedWork[] {
  switch (block.kind) {
    case 'work':
      return [block.work]
    case 'move':
      return []
    default:
      return block.works
  }
}
