import type { LaidBlock, LaidRow } from '../../domain/drawing/plan-layout.ts'

/** Where the focus stands in the drawing: a row, and a block of it or, at -1, the row's name. */
export interface Here {
  readonly row: number
  readonly block: number
}

export type Step = 'left' | 'right' | 'up' | 'down' | 'first' | 'last'

/** The block with this key; null when the drawing has none, as after a change of the zoom. */
export function findBlock(rows: readonly LaidRow[], key: string): Here | null {
  for (const [row, laid] of rows.entries()) {
    if (laid.row.key === key) return { row, block: -1 }
    const block = laid.blocks.findIndex((each) => each.block.key === key)
    if (block !== -1) return { row, block }
  }
  return null
}

export const keyAt = (rows: readonly LaidRow[], here: Here): string | null =>
  blockAt(rows, here)?.block.key ?? rows[here.row]?.row.key ?? null

export const blockAt = (rows: readonly LaidRow[], { row, block }: Here): LaidBlock | undefined =>
  rows[row]?.blocks[block]

/** One step of the arrow keys: along a row block by block with the row's name at its head, across rows to the nearest. */
export function stepFrom(rows: readonly LaidRow[], here: Here, step: Step): Here {
  const last = (rows[here.row]?.blocks.length ?? 0) - 1
  switch (step) {
    case 'left':
      return { ...here, block: Math.max(-1, here.block - 1) }
    case 'right':
      return { ...here, block: Math.min(last, here.block + 1) }
    case 'first':
      return { ...here, block: -1 }
    case 'last':
      return { ...here, block: last }
    case 'up':
    case 'down':
      return stepAcross(rows, here, step === 'up' ? -1 : 1)
  }
}

function stepAcross(rows: readonly LaidRow[], here: Here, by: 1 | -1): Here {
  const from = blockAt(rows, here)
  for (let row = here.row + by; row >= 0 && row < rows.length; row += by) {
    if (from === undefined) return { row, block: -1 }
    const block = nearestBlock(rows[row]?.blocks ?? [], from.x)
    // Rows without blocks are reached by their names.
    if (block >= 0) return { row, block }
  }
  return here
}

/** The block that holds x or else is nearest to it; -1 in a row without blocks. */
export function nearestBlock(blocks: readonly LaidBlock[], x: number): number {
  let nearest = -1
  let least = Infinity
  for (const [index, block] of blocks.entries()) {
    const away = x < block.x ? block.x - x : Math.max(0, x - block.x - block.width)
    if (away < least) [nearest, least] = [index, away]
  }
  return nearest
}
