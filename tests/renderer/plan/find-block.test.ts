import { describe, expect, test } from 'vitest'
import { layOutPlan } from '../../../domain/drawing/plan-layout.ts'
import { planNames, planRows } from '../../../domain/drawing/plan-rows.ts'
import { scaleFor } from '../../../domain/drawing/plan-scale.ts'
import { dayEnd } from '../../../domain/time/zone.ts'
import { blockAt, findBlock, keyAt, nearestBlock, stepFrom } from '../../../renderer/plan/find-block.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const view = planViewFixture({ works: 300 })
const planned = planRows(view, view.inForce!.plan, (date) => dayEnd(date, view.zone))
const { rows } = layOutPlan(planned, scaleFor(view.days, 1_000, 7), planNames(view))

describe('the arrow keys in the drawing', () => {
  test('go along a row and end at its name and at its last block', () => {
    const first = { row: 0, block: 0 }
    expect(stepFrom(rows, first, 'left')).toEqual({ row: 0, block: -1 })
    expect(stepFrom(rows, { row: 0, block: -1 }, 'left')).toEqual({ row: 0, block: -1 })
    const last = rows[0]!.blocks.length - 1
    expect(stepFrom(rows, { row: 0, block: last }, 'right')).toEqual({ row: 0, block: last })
    expect(stepFrom(rows, first, 'last')).toEqual({ row: 0, block: last })
    expect(stepFrom(rows, { row: 0, block: last }, 'first')).toEqual({ row: 0, block: -1 })
  })

  test('go across rows to the block that stands at the same time', () => {
    const from = { row: 0, block: 1 }
    const down = stepFrom(rows, from, 'down')
    expect(down.row).toBe(1)
    const { x } = blockAt(rows, from)!
    const found = blockAt(rows, down)!
    expect(found.x).toBeLessThanOrEqual(x)
    expect(found.x + found.width).toBeGreaterThanOrEqual(x)
    expect(stepFrom(rows, { row: 0, block: 0 }, 'up')).toEqual({ row: 0, block: 0 })
    expect(stepFrom(rows, { row: rows.length - 1, block: -1 }, 'down').row).toBe(rows.length - 1)
  })

  test('leave rows without blocks out, but not their names', () => {
    const [one, two, three] = rows as unknown as [(typeof rows)[0], (typeof rows)[0], (typeof rows)[0]]
    const gap = [one, { ...two, blocks: [] }, three]
    expect(stepFrom(gap, { row: 0, block: 0 }, 'down').row).toBe(2)
    expect(stepFrom(gap, { row: 0, block: -1 }, 'down')).toEqual({ row: 1, block: -1 })
    expect(stepFrom(gap.slice(0, 2), { row: 0, block: 0 }, 'down')).toEqual({ row: 0, block: 0 })
  })

  test('reach every block of the plan', () => {
    const reached = new Set<string>()
    let here = { row: 0, block: -1 }
    for (;;) {
      reached.add(keyAt(rows, here)!)
      const next = stepFrom(rows, here, 'right')
      if (next.block !== here.block) here = next
      else if (here.row === rows.length - 1) break
      else here = { row: here.row + 1, block: -1 }
    }
    const all = rows.flatMap((row) => [row.row.key, ...row.blocks.map(({ block }) => block.key)])
    expect(all.filter((key) => !reached.has(key))).toEqual([])
  })

  test('find a block again by its key, and a row by its own', () => {
    const key = rows[2]!.blocks[1]!.block.key
    expect(findBlock(rows, key)).toEqual({ row: 2, block: 1 })
    expect(findBlock(rows, rows[3]!.row.key)).toEqual({ row: 3, block: -1 })
    expect(findBlock(rows, 'work that is gone')).toBeNull()
  })

  test('choose the nearest block where none stands at that time', () => {
    const block = rows[0]!.blocks[0]!
    const at = (x: number, width: number) => ({ ...block, x, width })
    expect(nearestBlock([at(0, 10), at(100, 10)], 40)).toBe(0)
    expect(nearestBlock([at(0, 10), at(100, 10)], 80)).toBe(1)
    expect(nearestBlock([], 80)).toBe(-1)
  })
})
