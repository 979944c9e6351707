import { describe, expect, test } from 'vitest'
import { attachmentIdSchema } from '../../../domain/ids.ts'
import { cropSchema } from '../../../domain/report/report-choices.ts'
import { moveCrop, setCrop, stretchCrop, WHOLE, withCrop } from '../../../renderer/owner-reports/crops.ts'
import { choicesOf } from '../../support/owner-report.ts'

const middle = { left: 0.25, top: 0.25, width: 0.5, height: 0.5 }

describe('a cut of a photo', () => {
  test('is moved without changing its size, and never over the edge', () => {
    expect(moveCrop(middle, 0.1, -0.05)).toEqual({ ...middle, left: 0.35, top: 0.2 })
    expect(moveCrop(middle, 5, -5)).toEqual({ ...middle, left: 0.5, top: 0 })
    expect(moveCrop(WHOLE, 0.3, 0.3)).toEqual(WHOLE)
  })

  test('is stretched by the edges that are dragged; the others stay', () => {
    expect(stretchCrop(middle, ['right', 'bottom'], 0.1, 0.2)).toEqual({ ...middle, width: 0.6, height: 0.7 })
    expect(stretchCrop(middle, ['left'], 0.1, 0.9)).toEqual({ ...middle, left: 0.35, width: 0.4 })
  })

  test('keeps a twentieth of the photo on each side, and stays on it', () => {
    expect(stretchCrop(middle, ['left', 'top'], 2, 2)).toEqual({
      left: 0.7,
      top: 0.7,
      width: 0.05,
      height: 0.05,
    })
    expect(stretchCrop(middle, ['right', 'top'], 2, -2)).toEqual({
      left: 0.25,
      top: 0,
      width: 0.75,
      height: 0.75,
    })
  })

  test('takes a typed figure, and moves where it would no longer fit', () => {
    expect(setCrop(middle, 'width', 0.9)).toEqual({ ...middle, left: 0.1, width: 0.9 })
    expect(setCrop(middle, 'left', 0.9)).toEqual({ ...middle, left: 0.5 })
    expect(setCrop(middle, 'height', 0)).toEqual({ ...middle, height: 0.05 })
    expect(setCrop(middle, 'height', 7)).toEqual({ ...middle, top: 0, height: 1 })
  })

  test('is one that the host takes, wherever it is dragged', () => {
    for (const edges of [['left'], ['right', 'bottom'], ['left', 'top'], []] as const)
      for (const by of [-2, -0.3333, -0.01, 0.01, 0.6667, 2])
        expect(cropSchema.safeParse(stretchCrop(moveCrop(middle, by, -by), edges, by, by)).success).toBe(true)
  })

  test('is kept for its photo alone, and given up for the whole photo', () => {
    const [one, other] = ['photo-one', 'photo-two'].map((id) => attachmentIdSchema.parse(id))
    const crops = withCrop(choicesOf({ crops: [{ attachmentId: other!, crop: middle }] }), one!, middle)
    expect(crops.map(({ attachmentId }) => attachmentId)).toEqual([other, one])
    expect(withCrop(choicesOf({ crops }), other!, null)).toEqual([{ attachmentId: one, crop: middle }])
  })
})
