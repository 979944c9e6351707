import type { SectionView } from '../../views/shared-views.ts'
import { filled, type Point, type Shape, short } from '../shapes.ts'
import type { Plan, Sheet } from './section-plan.ts'

/** Sealer where sheets part behind the flange: drawn below the metal, so that only the corner itself shows. */
export function cornerShapes(
  { unit }: Plan,
  section: SectionView,
  sheets: readonly Sheet[],
): readonly Shape[] {
  if (!section.sealed) return []
  return seamsOf(sheets).map((y) => filled(round({ x: 43 * unit, y }, 8 * unit, 5.5 * unit), 'sealer'))
}

/** Spot welds through the sheets that are in place, and a bead of sealer over the edges of the flange. */
export function flangeShapes(
  { unit }: Plan,
  section: SectionView,
  sheets: readonly Sheet[],
): readonly Shape[] {
  const placed = sheets.filter(({ isOff }) => !isOff)
  const spots = seamsOf(sheets).map((y) => filled(round({ x: 26 * unit, y }, 5 * unit, 1.7 * unit), 'ink'))
  const [outer, inner] = [placed.at(-1), placed[0]]
  if (!section.sealed || !outer || !inner) return spots
  const top = outer.course.flangeY - outer.thickness / 2
  const bottom = inner.course.flangeY + inner.thickness / 2
  return [...spots, filled(bead(12 * unit, top, bottom, unit), 'sealer', 'ink', 0.5 * unit)]
}

/** Between each two neighbours in the flange. */
function seamsOf(sheets: readonly Sheet[]): readonly number[] {
  const placed = sheets.filter(({ isOff }) => !isOff)
  return placed.slice(1).map(({ course, thickness }) => course.flangeY + thickness / 2)
}

function round({ x, y }: Point, rx: number, ry: number): string {
  const arc = `A${short(rx)} ${short(ry)} 0 1 0`
  return `M${short(x - rx)} ${short(y)}${arc} ${short(x + rx)} ${short(y)}${arc} ${short(x - rx)} ${short(y)}Z`
}

/** A bead over the edges of the flange. */
function bead(x: number, top: number, bottom: number, unit: number): string {
  const [high, low] = [top - 1.6 * unit, bottom + 1.6 * unit].map(short)
  const [right, belly] = [x + 2.6 * unit, x - 7.5 * unit].map(short)
  return `M${right} ${high}C${belly} ${high} ${belly} ${low} ${right} ${low}Z`
}
