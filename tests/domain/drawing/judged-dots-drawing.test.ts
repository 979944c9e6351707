import { describe, expect, test } from 'vitest'
import { drawJudgedDots } from '../../../domain/drawing/judged-dots-drawing.ts'
import { drawShareBar } from '../../../domain/drawing/share-bar-drawing.ts'
import type { Drawing, PathShape } from '../../../domain/drawing/shapes.ts'
import { wereWeRightView } from '../../../domain/views/were-we-right-view.ts'
import { judged } from '../../support/judged.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

/** Estimated at 10 h, said 11 h with 50 and 14 h with 80 %. */
const view = (hours: readonly number[]) =>
  wereWeRightView({
    finished: hours.map((actual, at) => judged(at + 1, actual)),
    when: 'accepted',
    last: null,
    workshop: buildWorkshop(),
    nameOf,
    by: null,
    repairName: ({ repairId }) => repairId,
  })

const paths = ({ shapes }: Drawing): readonly PathShape[] => shapes.filter((shape) => shape.kind === 'path')
const marks = (drawing: Drawing) => ({
  within: paths(drawing).filter(({ fill }) => fill === 'steel').length,
  over: paths(drawing).filter(({ fill }) => fill === 'accent').length,
})

describe('the drawing of finished repairs', () => {
  test('marks what took more than its 80 % figure in another shape, and says how many did', () => {
    const drawing = drawJudgedDots(view([9, 14, 14.1, 40]).dots, 600)
    expect(marks(drawing)).toEqual({ within: 2, over: 2 })
    expect(drawing.words).toBe(
      '4 repairs in the order of finishing: from 0.90 to 4.00 times the estimate, 2 over the 80 % figure.',
    )
  })

  test('holds whatever the repairs took within its height, and shows half and double at least', () => {
    for (const hours of [[10], [0.2, 300]]) {
      const drawing = drawJudgedDots(view(hours).dots, 320)
      const heights = paths(drawing).flatMap(({ d }) =>
        [...d.matchAll(/[ML]-?[\d.]+ (-?[\d.]+)/g)].map(([, y]) => Number(y)),
      )
      expect(Math.min(...heights)).toBeGreaterThanOrEqual(0)
      expect(Math.max(...heights)).toBeLessThanOrEqual(drawing.height)
      const ticks = drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
      expect(ticks).toEqual(expect.arrayContaining(['0.5×', '1×', '2×']))
    }
  })

  test('says that nothing is finished where nothing is', () => {
    expect(drawJudgedDots([], 320).words).toBe('No repair is finished yet.')
  })
})

test('a share is drawn from 0 to 100 % with the ends of its interval, and its words hold the figures', () => {
  const drawing = drawShareBar(view([9, 9, 9, 20]).all.within80!, 216)
  // 200 units wide between the edges: three of four fill 150 of them.
  expect(paths(drawing)[1]?.d).toMatch(/^M8 4H158V/)
  expect(drawing.words).toMatch(/^75 % of 4; between \d+ and \d+ % is likely, 80 % was said$/)
})
