import type { ThreePoint } from '../facts/shapes.ts'
import { betaQuantile, type BetaShape } from './beta.ts'
import { normalCdf } from './normal.ts'

/** Shape of the modified PERT beta on [a, b] with mode m: 1 + 4(m - a)/(b - a) and 1 + 4(b - m)/(b - a) (Vose 2008). */
export function pertShape({ shortest: a, likely: m, longest: b }: ThreePoint): BetaShape {
  return { alpha: 1 + (4 * (m - a)) / (b - a), beta: 1 + (4 * (b - m)) / (b - a) }
}

/** The value that a modified PERT beta stays at or under with this likelihood, 0 to 1; the one value where all three agree. */
export function pertQuantile(points: ThreePoint, probability: number): number {
  const { shortest, longest } = points
  const width = longest - shortest
  return width > 0 ? shortest + width * betaQuantile(probability, pertShape(points)) : shortest
}

/**
 * The value of a standard normal score's likelihood for three points: one entry each 1/STEPS from -FAR to FAR, to be read
 * with straight lines between. Written into `table`, which has TABLE_LENGTH entries.
 */
export function fillQuantiles(table: Float64Array, points: ThreePoint): void {
  const { shortest, longest } = points
  const width = longest - shortest
  const place = width > 0 ? ((points.likely - shortest) / width) * MODES : 0
  const lower = Math.min(MODES - 1, Math.floor(place))
  const share = place - lower
  const [one, other] = [unitTable(lower), unitTable(lower + 1)]
  for (let at = 0; at < table.length; at += 1) {
    const unit = (1 - share) * (one[at] as number) + share * (other[at] as number)
    table[at] = shortest + width * unit
  }
}

/** Beyond the strata of 15,000 samples. */
export const FAR = 4
export const STEPS = 16
export const TABLE_LENGTH = 2 * FAR * STEPS + 1

/** Tables are kept for modes at so many places between shortest and longest; others are blended, true to 3e-4 of the width. */
const MODES = 32

const unitTables: Float64Array[] = []

const unitTable = (mode: number): Float64Array =>
  (unitTables[mode] ??= Float64Array.from({ length: TABLE_LENGTH }, (_, at) =>
    betaQuantile(normalCdf(at / STEPS - FAR), pertShape({ shortest: 0, likely: mode / MODES, longest: 1 })),
  ))
