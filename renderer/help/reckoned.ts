import {
  astmD610Grade,
  bendAllowance,
  type Bend,
  flatLength,
  mmToNearestSwg,
  sheetMassKgPerM2,
  swgToMm,
} from '../../domain/measure/metal.ts'
import { nuggetDiameterMm, spotWeldRow } from '../../domain/measure/welds.ts'
import { refusalWords, type Result } from '../../domain/refusal.ts'
import { fixed } from '../../domain/text/words.ts'
import type { Term } from './help-shapes.ts'

/** What the tables say of a sheet of that thickness in mm, and of spot welds in two of them. */
export function sheetFigures(thicknessMm: number): readonly Term[] {
  const nugget = (joint: 'general' | 'load-bearing') => nuggetDiameterMm(thicknessMm, joint)
  const [usual, bearing] = [nugget('general'), nugget('load-bearing')]
  if (!usual.ok || !bearing.ok) return [['thickness', usual.ok ? '' : refusalWords(usual.refusal)]]
  const gauge = mmToNearestSwg(thicknessMm)
  return [
    ['gauge', worded(swgToMm(gauge), (mm) => `nearest is SWG ${gauge}, ${mmWords(mm, 2)}`)],
    ['weight', `${fixed(sheetMassKgPerM2(thicknessMm), 2)} kg a square metre`],
    [
      'spot welds',
      worded(
        spotWeldRow(thicknessMm),
        ({ spacingMm, overlapMm }) =>
          `at least ${mmWords(spacingMm, 1)} from centre to centre, in an overlap of ${mmWords(overlapMm, 1)} or more`,
      ),
    ],
    [
      'nugget',
      `at least ${mmWords(usual.value, 1)} across, ${mmWords(bearing.value, 1)} on a load-bearing joint`,
    ],
  ]
}

/** How long a strip with one bend is cut. @param legs outside ones, in mm like the bend */
export function bendFigures(bend: Bend, legs: readonly [number, number]): readonly Term[] {
  return [
    ['cut it', worded(flatLength(bend, legs), (mm) => `${mmWords(mm, 1)} long before it is bent`)],
    ['in the bend', worded(bendAllowance(bend), (mm) => `${mmWords(mm, 1)} of it`)],
  ]
}

/** @param rustedPercent share of a surface, 0 to 100 */
export const rustFigures = (rustedPercent: number): readonly Term[] => [
  ['grade', worded(astmD610Grade(rustedPercent), ({ grade, scale }) => `${grade} of ${scale}`)],
]

const mmWords = (mm: number, decimals: number): string => `${fixed(mm, decimals)} mm`

const worded = <T>(result: Result<T>, words: (value: T) => string): string =>
  result.ok ? words(result.value) : refusalWords(result.refusal)
