import { ok, refuse, type Result } from '../refusal.ts'

/** Imperial standard wire gauge, the sizes of body sheet, in inches (BS 3737). Other countries' gauge numbers differ. */
const SWG_INCHES: Readonly<Record<number, number>> = {
  16: 0.064,
  17: 0.056,
  18: 0.048,
  19: 0.04,
  20: 0.036,
  21: 0.032,
  22: 0.028,
}

const MM_PER_INCH = 25.4
const STEEL_KG_PER_M3 = 7_850

/** Thickness in mm of an Imperial standard wire gauge number, 16 to 22; others are refused. */
export function swgToMm(gauge: number): Result<number> {
  const inches = SWG_INCHES[gauge]
  if (inches !== undefined) return ok(inches * MM_PER_INCH)
  return refuse(
    'bad-input',
    'The table holds SWG 16 to 22.',
    'Measure the sheet and give its thickness in mm.',
  )
}

/** The gauge number, 16 to 22, whose thickness is nearest to one in mm. */
export function mmToNearestSwg(thicknessMm: number): number {
  const gap = (gauge: number): number => Math.abs((SWG_INCHES[gauge] ?? 0) * MM_PER_INCH - thicknessMm)
  return Object.keys(SWG_INCHES)
    .map(Number)
    .reduce((best, gauge) => (gap(gauge) < gap(best) ? gauge : best))
}

/** Mass of steel sheet in kg/m2 (7850 kg/m3) for a thickness in mm. */
export function sheetMassKgPerM2(thicknessMm: number): number {
  return (thicknessMm / 1000) * STEEL_KG_PER_M3
}

/** One bend; lengths in any one unit. */
export interface Bend {
  readonly thickness: number
  readonly insideRadius: number
  /** Angle bent through in degrees, above 0 and below 180. */
  readonly angleDegrees: number
  /** Where the neutral line lies, as a share of the thickness from the inside: 0 to 0.5. */
  readonly kFactor: number
}

/** Length of the neutral line round the bend, angle (rad) x (R + K T), in the unit of the bend. */
export function bendAllowance(bend: Bend): Result<number> {
  const refusal = bendRefusal(bend)
  if (refusal !== null) return refusal
  return ok(radians(bend.angleDegrees) * (bend.insideRadius + bend.kFactor * bend.thickness))
}

/**
 * Flat length of a strip with one bend from its two outside legs, each measured to where the outside faces meet:
 * a + b - 2 tan(angle / 2) (R + T) + bend allowance. Refused when a leg is shorter than its set-back.
 */
export function flatLength(bend: Bend, outsideLegs: readonly [number, number]): Result<number> {
  const allowance = bendAllowance(bend)
  if (!allowance.ok) return allowance
  const setBack = Math.tan(radians(bend.angleDegrees) / 2) * (bend.insideRadius + bend.thickness)
  if (!outsideLegs.every((leg) => leg >= setBack && Number.isFinite(leg))) {
    return refuse('bad-input', 'A leg is shorter than the bend itself.', 'Measure the outside legs again.')
  }
  return ok(outsideLegs[0] + outsideLegs[1] - 2 * setBack + allowance.value)
}

/** A grade is never stored without its scale: other scales share the names and differ in the numbers. */
export interface RustGrade {
  readonly scale: 'ASTM D610-08'
  /** 10 (not more than 0.01 % rusted) down to 0 (above 50 %). */
  readonly grade: number
}

/** ASTM D610-08: the grade by rusted area in percent of the surface; refused outside 0 to 100. */
export function astmD610Grade(rustedPercent: number): Result<RustGrade> {
  if (!(rustedPercent >= 0 && rustedPercent <= 100)) {
    return refuse(
      'bad-input',
      'Rusted area must be from 0 to 100 %.',
      'Judge the rusted share of the surface again.',
    )
  }
  const grade = D610_UPPER_PERCENT.find(([, upper]) => rustedPercent <= upper)?.[0] ?? 0
  return ok({ scale: 'ASTM D610-08', grade })
}

/** Grade and the largest rusted area in percent that it holds. */
const D610_UPPER_PERCENT: readonly (readonly [number, number])[] = [
  [10, 0.01],
  [9, 0.03],
  [8, 0.1],
  [7, 0.3],
  [6, 1],
  [5, 3],
  [4, 10],
  [3, 16],
  [2, 33],
  [1, 50],
]

function bendRefusal({ thickness, insideRadius, angleDegrees, kFactor }: Bend): Result<never> | null {
  const isBend = thickness > 0 && insideRadius >= 0 && angleDegrees > 0 && angleDegrees < 180
  if (isBend && kFactor >= 0 && kFactor <= 0.5) return null
  return refuse(
    'bad-input',
    'A bend has a thickness above 0, a radius from 0, an angle between 0 and 180 degrees and a K factor from 0 to 0.5.',
    'Check the figures of the bend.',
  )
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180
}
