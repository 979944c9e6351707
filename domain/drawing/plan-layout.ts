import { textWidth } from './text-fit.ts'
import { mergeBlocks } from './plan-merge.ts'
import type { FinishBlock, PlanBlock, PlanNames, PlanRow } from './plan-rows.ts'
import { type TimeScale, xOf } from './plan-scale.ts'

/** A row of the plan with its place; `y` is from the top of the first row. */
export interface LaidRow {
  readonly row: PlanRow
  readonly y: number
  readonly height: number
  readonly blocks: readonly LaidBlock[]
}

export interface LaidBlock {
  readonly block: PlanBlock
  readonly x: number
  readonly y: number
  /** At least {@link LEAST_WIDTH}, so that the shortest work can be seen. */
  readonly width: number
  readonly height: number
}

const LEAST_WIDTH = 3
export const BAY_BLOCK = 28
const YARD_BLOCK = 18
const PERSON_BLOCK = 26
const FINISH_BLOCK = 24
const ROW_EDGE = 6

/** Where every block of the plan stands at this scale. Blocks of a row that meet in time stand in lanes below each other. */
export function layOutPlan(
  rows: readonly PlanRow[],
  scale: TimeScale,
  names: Pick<PlanNames, 'car'>,
): { readonly rows: readonly LaidRow[]; readonly height: number } {
  let y = 0
  const laid = rows.map((row): LaidRow => {
    const each = layOutRow(row, y, scale, names)
    y += each.height
    return each
  })
  return { rows: laid, height: y }
}

function layOutRow(row: PlanRow, y: number, scale: TimeScale, names: Pick<PlanNames, 'car'>): LaidRow {
  const size = blockHeight(row)
  const blocks: readonly PlanBlock[] = row.kind === 'person' ? mergeBlocks(row.blocks, scale) : row.blocks
  const spans = blocks.map((block) => spanOf(block, scale, names))
  const lanes = packLanes(spans)
  const count = Math.max(1, 1 + Math.max(-1, ...lanes))
  return {
    row,
    y,
    height: Math.max(leastHeight(row), count * size + (count - 1) * LANE_GAP + 2 * ROW_EDGE),
    blocks: blocks.map((block, index) => {
      const { from, to } = spans[index] ?? { from: 0, to: 0 }
      const lane = lanes[index] ?? 0
      const top = y + ROW_EDGE + lane * (size + LANE_GAP)
      return { block, x: from, y: top, width: Math.max(LEAST_WIDTH, to - from), height: size }
    }),
  }
}

const LANE_GAP = 4

/** What is promised has a key of two lines at its head. */
const leastHeight = (row: PlanRow): number => (row.kind === 'finish' ? 60 : 0)

/** Cars that wait in a yard need no more room than their names. */
function blockHeight(row: PlanRow): number {
  switch (row.kind) {
    case 'bay':
      return row.bay.storage ? YARD_BLOCK : BAY_BLOCK
    case 'person':
      return PERSON_BLOCK
    case 'finish':
      return FINISH_BLOCK
  }
}

function spanOf(block: PlanBlock, scale: TimeScale, names: Pick<PlanNames, 'car'>): Span {
  const from = xOf(scale, block.from)
  const to = xOf(scale, block.to)
  if (block.kind !== 'finish') return { from, to }
  return { from: from - FLAG_ROOM, to: to + finishWordsWidth(block, names) }
}

/** The flag's cloth hangs to the left of its pole. */
const FLAG_ROOM = 14

/** Room of the name behind a flag and a dimension line. */
function finishWordsWidth(block: FinishBlock, names: Pick<PlanNames, 'car'>): number {
  return textWidth(`${names.car(block.carId)}, 100 days late`, 12, true) + 20
}

interface Span {
  readonly from: number
  readonly to: number
}

/**
 * The lane of each span, from 0: the first in which it meets no earlier one (touching is not meeting). Uses the fewest lanes
 * there can be when the spans come in order of their starts.
 */
export function packLanes(spans: readonly Span[]): readonly number[] {
  const ends: number[] = []
  return spans.map(({ from, to }) => {
    const free = ends.findIndex((end) => end <= from + TOUCHING)
    const lane = free === -1 ? ends.length : free
    ends[lane] = to
    return lane
  })
}

/** Hundredths of a unit that reckoning with fractions may add. */
const TOUCHING = 0.01
