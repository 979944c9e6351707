import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { HATCHES, hatchOf } from '../../../domain/drawing/plan-hatch.ts'
import { layOutPlan, packLanes } from '../../../domain/drawing/plan-layout.ts'
import { mergeBlocks, worksOf } from '../../../domain/drawing/plan-merge.ts'
import { planNames, planRows, type PersonRow, type PlanRow } from '../../../domain/drawing/plan-rows.ts'
import { scaleFor, ZOOM_STEPS } from '../../../domain/drawing/plan-scale.ts'
import { pausePath, workBoxes } from '../../../domain/drawing/plan-shapes.ts'
import { dayEnd, localToInstant } from '../../../domain/time/zone.ts'
import { planViewFixture } from '../../support/plan-view-fixture.ts'

const view = planViewFixture()
const plan = view.inForce!.plan
const rows = planRows(view, plan, (date) => dayEnd(date, view.zone))
const names = planNames(view)
const isPerson = (row: PlanRow): row is PersonRow => row.kind === 'person'
const people = rows.filter(isPerson)

describe('the rows', () => {
  test('bays stand above what is promised, and people below', () => {
    expect(rows.map(({ kind }) => kind)).toEqual([
      ...view.bays.map(() => 'bay'),
      'finish',
      ...view.people.map(() => 'person'),
    ])
  })

  test('every stay, every piece of work and every car is drawn once for each it concerns', () => {
    const count = (kind: PlanRow['kind']) =>
      rows.filter((row) => row.kind === kind).reduce((sum, row) => sum + row.blocks.length, 0)
    expect(count('bay')).toBe(plan.stays.length)
    expect(count('person')).toBe(plan.work.length)
    expect(count('finish')).toBe(plan.cars.length)
    const keys = rows.flatMap((row) => row.blocks.map(({ key }) => key))
    expect(new Set(keys).size).toBe(keys.length)
  })
})

describe('lanes', () => {
  const spans = fc.array(
    fc.record({ from: fc.integer({ min: 0, max: 200 }), length: fc.integer({ min: 1, max: 60 }) }),
    { maxLength: 40 },
  )
  const sorted = (found: readonly { readonly from: number; readonly length: number }[]) =>
    found.map(({ from, length }) => ({ from, to: from + length })).toSorted((a, b) => a.from - b.from)

  test('spans of one lane never meet', () => {
    fc.assert(
      fc.property(spans, (found) => {
        const all = sorted(found)
        const lanes = packLanes(all)
        for (const [index, one] of all.entries()) {
          for (const [after, other] of all.slice(index + 1).entries()) {
            if (lanes[index] === lanes[index + 1 + after]) expect(other.from >= one.to).toBe(true)
          }
        }
      }),
    )
  })

  test('there are never more lanes than spans that meet in one point', () => {
    // Interval partitioning: in order of starts, the first free lane needs exactly as many lanes as the depth
    // (Kleinberg and Tardos, Algorithm Design, 2005, section 4.1).
    fc.assert(
      fc.property(spans, (found) => {
        const all = sorted(found)
        const depth = Math.max(
          0,
          ...all.map(({ from }) => all.filter((each) => each.from <= from && from < each.to).length),
        )
        expect(Math.max(0, ...packLanes(all).map((lane) => lane + 1))).toBe(depth)
      }),
    )
  })
})

describe('merging', () => {
  test('a week shows each piece of work by itself', () => {
    const scale = scaleFor(view.days, 1_050, 7)
    for (const row of people) expect(mergeBlocks(row.blocks, scale)).toBe(row.blocks)
  })

  test('no work is lost, none is told twice, and blocks stay in order and apart at every zoom', () => {
    for (const shown of ZOOM_STEPS) {
      const scale = scaleFor(view.days, 1_050, shown)
      for (const row of people) {
        const merged = mergeBlocks(row.blocks, scale)
        expect(merged.flatMap(worksOf)).toEqual(row.blocks.flatMap(worksOf))
        for (const [index, block] of merged.entries()) {
          const before = merged[index - 1]
          if (before !== undefined) expect(block.from).toBeGreaterThanOrEqual(before.to)
        }
      }
    }
  })

  test('zoomed out, blocks of a car hold one car, and there are far fewer of them', () => {
    const merged = people.flatMap((row) => mergeBlocks(row.blocks, scaleFor(view.days, 1_050, 183)))
    for (const block of merged) {
      if (block.kind !== 'car') continue
      expect(new Set(block.works.map(({ carId }) => carId))).toEqual(new Set([block.carId]))
    }
    expect(merged.length).toBeLessThan(plan.work.length / 2)
  })

  test('pieces on one car over a night are one block, and over a holiday of a week two', () => {
    const [row] = people
    const block = row!.blocks.find(({ kind }) => kind === 'work')!
    const at = (date: string, time: string) => localToInstant(date, time, view.zone)
    const piece = (from: number, to: number, key: string) => ({ ...block, key, from, to })
    const blocks = [
      piece(at('2026-12-01', '08:00'), at('2026-12-01', '16:30'), 'a'),
      piece(at('2026-12-02', '08:00'), at('2026-12-02', '16:30'), 'b'),
      piece(at('2026-12-10', '08:00'), at('2026-12-10', '16:30'), 'c'),
    ]
    expect(mergeBlocks(blocks, scaleFor(view.days, 1_050, 28)).map(({ kind }) => kind)).toEqual([
      'car',
      'work',
    ])
  })
})

describe('the layout', () => {
  test('rows stand below each other and hold their blocks at every zoom', () => {
    for (const shown of ZOOM_STEPS) {
      const { rows: laid, height } = layOutPlan(rows, scaleFor(view.days, 1_050, shown), names)
      for (const [index, row] of laid.entries()) {
        expect(row.y).toBe(index === 0 ? 0 : laid[index - 1]!.y + laid[index - 1]!.height)
        for (const block of row.blocks) {
          expect(block.y).toBeGreaterThanOrEqual(row.y)
          expect(block.y + block.height).toBeLessThanOrEqual(row.y + row.height)
        }
      }
      expect(height).toBe(laid.at(-1)!.y + laid.at(-1)!.height)
    }
  })
})

describe('work that pauses', () => {
  const box = { x: 0, y: 0, width: 0, height: 20 }
  const at = (date: string, time: string) => localToInstant(date, time, view.zone)

  test('is drawn in the hours of the workshop, the night as a line', () => {
    const scale = scaleFor(view.days, 200, 1)
    const when = { from: at('2026-11-26', '14:30'), to: at('2026-11-27', '10:00') }
    const boxes = workBoxes(box, when, view.days, scale)
    expect(boxes).toHaveLength(2)
    expect(boxes.map(({ width }) => width)).toEqual([
      expect.closeTo((2 / 24) * 200, 6),
      expect.closeTo((2 / 24) * 200, 6),
    ])
    expect(pausePath(boxes)).toMatch(/^M[\d.]+ 10H[\d.]+$/)
  })

  test('is one box where no pause could be seen, and outside of all hours', () => {
    const when = { from: at('2026-11-26', '08:00'), to: at('2026-11-26', '16:30') }
    // Half an hour at 200 units a day is about four units.
    expect(workBoxes(box, when, view.days, scaleFor(view.days, 200, 1))).toHaveLength(1)
    const sunday = { from: at('2026-11-29', '08:00'), to: at('2026-11-29', '12:00') }
    expect(workBoxes(box, sunday, view.days, scaleFor(view.days, 200, 1))).toEqual([box])
  })
})

describe('hatchings', () => {
  test('twelve can be told apart by their strokes and by their words', () => {
    expect(HATCHES).toHaveLength(12)
    expect(new Set(HATCHES.map(({ lines, dots }) => `${lines} ${dots}`)).size).toBe(12)
    expect(new Set(HATCHES.map(({ words }) => words)).size).toBe(12)
  })

  test('the thirteenth car begins again', () => {
    expect(hatchOf(12)).toBe(HATCHES[0])
    expect(hatchOf(25)).toBe(HATCHES[1])
  })
})
