import { describe, expect, test } from 'vitest'
import { fitGroupIdSchema } from '../../../domain/ids.ts'
import type { EdgeView, FitGroupView } from '../../../domain/views/shared-views.ts'
import { sidesCompared } from '../../../domain/views/sides-compared.ts'

const edge = (name: string, gapsMm: readonly number[] | null): EdgeView => ({
  edgeId: name,
  name,
  nominalMm: 4,
  toleranceMm: 1,
  flushToleranceMm: 1,
  last: gapsMm && {
    gapsMm,
    minMm: Math.min(...gapsMm),
    maxMm: Math.max(...gapsMm),
    meanMm: gapsMm[0]!,
    taperMm: 0,
    flushMm: 0,
    inside: true,
    words: 'inside',
  },
})

const group = (name: string, edges: readonly EdgeView[]): FitGroupView => ({
  id: fitGroupIdSchema.parse('group-around-a-door'),
  name,
  members: [],
  hungParts: [],
  edges,
  fitUps: [],
  good: false,
  stale: false,
})

describe('left and right of a car', () => {
  test('are compared where both were read, by the opening or by the edge', () => {
    expect(
      sidesCompared([
        group('Door, left', [edge('rear edge', [4, 4.5]), edge('sill edge', [4])]),
        group('Door, right', [edge('rear edge', [4, 4]), edge('sill edge', null)]),
        group('Boot lid', [edge('left edge', [5]), edge('right edge', [4]), edge('rear edge', [4])]),
      ]),
    ).toEqual([
      { name: 'Door: rear edge', words: 'gaps differ by 0.5 mm at one place, the left wider; as flush' },
      { name: 'Boot lid: edge', words: 'gaps differ by 1 mm at one place, the left wider; as flush' },
    ])
  })

  test('an opening of one side alone is compared with nothing', () => {
    expect(sidesCompared([group('Left door', [edge('rear edge', [4])])])).toEqual([])
  })
})
