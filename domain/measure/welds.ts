import { ok, refuse, type Result } from '../refusal.ts'
import { fixed, plural } from '../text/words.ts'
import { asRead, type Judgement, judgementOf } from './judgement.ts'

export type WeldKind = 'spot' | 'plug' | 'seam'

/** One joint of the weld plan. Spots and plugs go by count, seams by length in mm. */
export interface WeldJoint {
  readonly name: string
  readonly kind: WeldKind
  readonly planned: number
  readonly done: number
}

/** Minimum values of a spot weld in two sheets of low-carbon steel, in mm. */
export interface SpotWeldRow {
  /** Of the thinnest outer sheet. */
  readonly thicknessMm: number
  readonly overlapMm: number
  /** Centre to centre; closer spots take current from one another. */
  readonly spacingMm: number
  readonly nuggetMm: number
}

/**
 * Suppliers' data sheets for spot welds in low-carbon sheet, converted from inches: what a weld plan is drawn up by. Welds
 * are counted against the repair's own plan.
 */
export const SPOT_WELD_TABLE: readonly SpotWeldRow[] = [
  { thicknessMm: 0.79, overlapMm: 11.1, spacingMm: 12.7, nuggetMm: 4.09 },
  { thicknessMm: 1.02, overlapMm: 12.7, spacingMm: 19.0, nuggetMm: 4.6 },
  { thicknessMm: 1.27, overlapMm: 14.3, spacingMm: 22.2, nuggetMm: 5.33 },
  { thicknessMm: 1.57, overlapMm: 15.9, spacingMm: 25.4, nuggetMm: 5.87 },
]

/** Whether every joint has what the plan asks for. More than planned is fine; one joint never makes up for another. */
export function judgeWelds(joints: readonly WeldJoint[]): Judgement {
  return judgementOf(joints.flatMap(jointProblems))
}

/** The row for a sheet: the thinnest one in the table that is not thinner. Refused at 0 or less and above the table. */
export function spotWeldRow(thicknessMm: number): Result<SpotWeldRow> {
  const row = thicknessMm > 0 ? SPOT_WELD_TABLE.find((each) => each.thicknessMm >= thicknessMm) : undefined
  if (row !== undefined) return ok(row)
  return refuse(
    'bad-input',
    `The spot weld table holds sheet up to 1.57 mm, not ${asRead(thicknessMm)} mm.`,
    'Plan as many welds as the original joint had.',
  )
}

/** Least nugget diameter in mm for a sheet in mm: 4 sqrt(t) in general, 5 sqrt(t) on load-bearing joints. */
export function nuggetDiameterMm(thicknessMm: number, joint: 'general' | 'load-bearing'): Result<number> {
  if (!(thicknessMm > 0 && Number.isFinite(thicknessMm))) {
    return refuse(
      'bad-input',
      'A sheet is thicker than 0 mm.',
      'Give the thickness of the thinner sheet in mm.',
    )
  }
  return ok((joint === 'load-bearing' ? 5 : 4) * Math.sqrt(thicknessMm))
}

function jointProblems({ name, kind, planned, done }: WeldJoint): readonly string[] {
  if (!(done >= 0 && Number.isFinite(done)))
    return [`${name}: what was welded is not a number; count it again`]
  if (kind !== 'seam' && !Number.isInteger(done))
    return [`${name}: ${kind} welds are counted in whole numbers`]
  if (done >= planned) return []
  const missing = planned - done
  if (kind === 'seam') {
    return [`${name}: ${asRead(done)} of ${asRead(planned)} mm of seam, ${asRead(missing)} mm more is needed`]
  }
  const more = missing === 1 ? 'more is needed' : 'more are needed'
  return [`${name}: ${fixed(done, 0)} of ${plural(`${kind} weld`, planned)}, ${fixed(missing, 0)} ${more}`]
}
