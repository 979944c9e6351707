import { describe, expect, test } from 'vitest'
import {
  compareDimension,
  DEFAULT_LIMIT_MM,
  standingWords,
  type DimensionReading,
  type ReferenceDimension,
} from '../../../domain/measure/dimensions.ts'

const read = (mm: number, changes: Partial<DimensionReading> = {}): DimensionReading => ({
  mm,
  stood: 'jig',
  doorsHung: false,
  ...changes,
})
const diagonal: ReferenceDimension = {
  asFound: read(1204),
  targetMm: 1204,
  limitMm: DEFAULT_LIMIT_MM.aperture,
}

describe('reference dimensions', () => {
  test('datum points may drift 3 mm and apertures 2 mm unless the dimension has its own limit', () => {
    // 3 mm: customary on unibody shells (I-CAR). 2 mm: common practice, no source.
    expect(DEFAULT_LIMIT_MM).toEqual({ datum: 3, aperture: 2 })
  })

  test('a reading that is still on its target is inside', () => {
    expect(compareDimension(diagonal, read(1204))).toEqual({
      kind: 'comparable',
      driftMm: 0,
      inside: true,
      words: 'on the target of 1,204.0 mm',
    })
  })

  test('drift up to the limit is inside, either way', () => {
    expect(compareDimension(diagonal, read(1206))).toMatchObject({
      inside: true,
      driftMm: 2,
      words: '2 mm over the target of 1,204.0 mm',
    })
    expect(compareDimension(diagonal, read(1202))).toMatchObject({ inside: true, driftMm: -2 })
  })

  test('floating point does not fail a drift at its limit', () => {
    // In binary 1205.8 - 1204.1 is more than 1.7.
    const tight = { ...diagonal, targetMm: 1204.1, limitMm: 1.7 }
    expect(compareDimension(tight, read(1205.8))).toMatchObject({ inside: true })
    expect(compareDimension(tight, read(1205.81))).toMatchObject({ inside: false })
  })

  test('drift past the limit is outside and says by how much', () => {
    expect(compareDimension(diagonal, read(1201.5))).toEqual({
      kind: 'comparable',
      driftMm: -2.5,
      inside: false,
      words: '2.5 mm under the target of 1,204.0 mm; at most 2 mm is allowed',
    })
  })

  test('drift counts from a corrected target, not from the reading as found', () => {
    const pulledBack = { ...diagonal, targetMm: 1210 }
    expect(compareDimension(pulledBack, read(1204))).toMatchObject({ inside: false, driftMm: -6 })
    expect(compareDimension(pulledBack, read(1209))).toMatchObject({ inside: true, driftMm: -1 })
  })

  test('a shell on its wheels is not compared with one on the jig', () => {
    expect(compareDimension(diagonal, read(1204, { stood: 'wheels' }))).toEqual({
      kind: 'not comparable',
      reason:
        'read on wheels without doors, as found on the jig without doors; read it again as it was found',
    })
  })

  test('a shell with its doors hung is not compared with one without', () => {
    expect(compareDimension(diagonal, read(1204, { doorsHung: true }))).toEqual({
      kind: 'not comparable',
      reason:
        'read on the jig with doors hung, as found on the jig without doors; read it again as it was found',
    })
  })

  test('every way of standing has its words', () => {
    const ways = (['wheels', 'stands', 'jig', 'rotisserie', 'dolly'] as const).map((stood) =>
      standingWords({ stood, doorsHung: false }),
    )
    expect(ways).toEqual([
      'on wheels without doors',
      'on stands without doors',
      'on the jig without doors',
      'on the rotisserie without doors',
      'on the dolly without doors',
    ])
  })

  test('a figure that is no number is never inside', () => {
    expect(compareDimension(diagonal, read(Number.NaN))).toMatchObject({ kind: 'not comparable' })
    expect(compareDimension({ ...diagonal, limitMm: Number.NaN }, read(1204))).toMatchObject({
      kind: 'not comparable',
    })
  })
})
