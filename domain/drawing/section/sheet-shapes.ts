import type { SectionLayer, SectionView } from '../../views/shared-views.ts'
import { filled, pathThrough, type Point, type Shape, short, stroked, type Tone, written } from '../shapes.ts'
import { type Damage, type DamagedRun, damageOf, NO_LOSS, ticksAlong } from './damage.ts'
import type { Plan, Sheet } from './section-plan.ts'
import { isPutRight, isUnknown } from './section-words.ts'
import { centreLine, hatchLines, runStart, sheetPiece, type SheetPiece, shifted } from './sheet-metal.ts'

/** One layer: hatched metal as its grade left it or as it was put right, a ghost when nobody has seen it. */
export function sheetShapes(plan: Plan, section: SectionView, sheet: Sheet): readonly Shape[] {
  const { layer } = sheet
  if (isUnknown(layer) && !isPutRight(layer)) return ghostShapes(plan, sheet)
  if (layer.grade === 'gone' && !isPutRight(layer)) return goneShapes(plan, sheet)
  if (layer.decision === 'patch' && isPutRight(layer)) return patchedShapes(plan, section, sheet)
  const isNew = layer.decision === 'replace' && isPutRight(layer)
  const damage = isNew || layer.grade === null ? NO_DAMAGE : damageAsDrawn(sheet)
  const pieces = piecesOf(plan, sheet, damage)
  return [
    ...pieces.flatMap((piece) => metalShapes(plan, section, sheet, piece, isNew)),
    ...(isPutRight(layer) ? [] : rustShapes(plan, sheet, damage)),
    ...pieces.flatMap((piece) => coatShapes(plan, section, sheet, piece)),
  ]
}

const NO_DAMAGE: Damage = { lossAt: () => NO_LOSS, holes: [] }

/** Rust begins in the cavity: at the upper face of the innermost sheet, at the lower face of every other. */
const cavityFace = ({ index }: Sheet): 'upper' | 'lower' => (index === 0 ? 'upper' : 'lower')

function damagedRun(sheet: Sheet): DamagedRun {
  const { remainingMm, thicknessMm } = sheet.layer
  const from = runStart(sheet.course) + 2
  const left = remainingMm === null ? null : Math.min(1, remainingMm / thicknessMm)
  return { from, to: sheet.course.end - 3, face: cavityFace(sheet), left, seed: sheet.index + 1 }
}

function damageAsDrawn(sheet: Sheet): Damage {
  const { grade } = sheet.layer
  return grade === null || grade === 'not seen' ? NO_DAMAGE : damageOf(grade, damagedRun(sheet))
}

/** The sheet as one piece, or as the pieces between its holes. */
function piecesOf(plan: Plan, sheet: Sheet, damage: Damage): readonly SheetPiece[] {
  const step = damage.lossAt === NO_DAMAGE.lossAt ? 60 * plan.unit : 1.4
  const line = centreLine(sheet.course, step)
  const starts = [-Infinity, ...damage.holes.map((hole) => hole.to)]
  const ends = [...damage.holes.map((hole) => hole.from), Infinity]
  return starts.map((start, index) => {
    const part = line.filter(({ x }) => x >= start && x <= (ends[index] ?? Infinity))
    return sheetPiece(part, sheet.thickness, damage.lossAt, index === starts.length - 1)
  })
}

function metalShapes(
  plan: Plan,
  section: SectionView,
  { layer, isOff }: Sheet,
  { outline }: SheetPiece,
  isNew: boolean,
): readonly Shape[] {
  const d = pathThrough(outline, true)
  const body: Tone = isCoated(section, layer) ? 'primer' : 'steel'
  const hatch = hatchShape(outline, plan, isNew ? -1 : 1)
  // A load-bearing sheet has the heavier outline of the two.
  const weight = (layer.loadBearing ? 1.5 : 0.9) * plan.unit
  return isOff
    ? [filled(d, 'sheet'), hatch, stroked(d, 'ink', weight, [4 * plan.unit, 2.6 * plan.unit])]
    : [filled(d, body), hatch, stroked(d, 'ink', weight)]
}

function hatchShape(outline: readonly Point[], { unit }: Plan, lean: 1 | -1): Shape {
  const lines = hatchLines(outline, 4.6 * unit, lean)
  return stroked(lines.map((ends) => pathThrough(ends)).join(''), 'quiet', 0.55 * unit)
}

/** Dashed edges with a question mark in a gap of the run. */
function ghostShapes(plan: Plan, { course, thickness, isOff }: Sheet): readonly Shape[] {
  const { unit } = plan
  const size = plan.labels ? plan.textSize : 13 * unit
  const middle = (runStart(course) + course.end) / 2
  const { upper, lower } = sheetPiece(centreLine(course, 3 * unit), thickness, () => NO_LOSS, true)
  const before = (edge: readonly Point[]) => edge.filter(({ x }) => x < middle - size * 0.6)
  const after = (edge: readonly Point[]) => edge.filter(({ x }) => x > middle + size * 0.6)
  const d =
    pathThrough([...before(upper).toReversed(), ...before(lower)]) +
    pathThrough([...after(upper), ...after(lower).toReversed()])
  return [
    stroked(d, isOff ? 'ink' : 'quiet', 0.8 * unit, [3 * unit, 2.6 * unit]),
    written('?', { x: middle, y: course.levelY + size * 0.36 }, size, {
      anchor: 'middle',
      bold: true,
      tone: 'quiet',
    }),
  ]
}

/** Only the line where the sheet once was, a stump in the flange and a last flake of rust. */
function goneShapes(plan: Plan, sheet: Sheet): readonly Shape[] {
  const { course, thickness } = sheet
  const { unit } = plan
  const line = centreLine(course, 1.4)
  const ragged = (x: number) => ({
    upper: 0.1 + 0.3 * Math.abs(Math.sin(x * 1.3)),
    lower: 0.1 + 0.3 * Math.abs(Math.cos(x)),
  })
  const whole = sheetPiece(centreLine(course, 60 * unit), thickness, () => NO_LOSS, true)
  const stump = sheetPiece(
    line.filter(({ x }) => x <= course.flangeTo - 4 * unit),
    thickness,
    () => NO_LOSS,
    false,
  )
  const flake = sheetPiece(
    line.filter(({ x }) => x > course.end - 16 * unit && x < course.end - 6 * unit),
    thickness,
    ragged,
    false,
  )
  return [
    stroked(pathThrough(whole.outline, true), 'rust', 0.9 * unit, [3.4 * unit, 3 * unit]),
    filled(pathThrough(stump.outline, true), 'steel'),
    hatchShape(stump.outline, plan, 1),
    stroked(pathThrough(stump.outline, true), 'ink', 0.9 * unit),
    filled(pathThrough(flake.outline, true), 'rust'),
  ]
}

/** The damaged stretch cut out and a new piece let in between two welds. */
function patchedShapes(plan: Plan, section: SectionView, sheet: Sheet): readonly Shape[] {
  const { course, thickness } = sheet
  const { unit } = plan
  const start = runStart(course)
  const from = start + (course.end - start) * 0.2
  const to = start + (course.end - start) * 0.78
  const line = centreLine(course, 1.4)
  const part = (low: number, high: number, isLast: boolean) =>
    sheetPiece(
      line.filter(({ x }) => x >= low && x <= high),
      thickness,
      () => NO_LOSS,
      isLast,
    )
  const pieces = [part(-Infinity, from, false), part(from, to, false), part(to, Infinity, true)]
  return [
    ...pieces.flatMap((piece, index) => metalShapes(plan, section, sheet, piece, index === 1)),
    ...pieces.flatMap((piece) => coatShapes(plan, section, sheet, piece)),
    ...[from, to].map((x) => weldShape(x, course.levelY, thickness, unit)),
  ]
}

/** A butt weld from one face, with its bead proud of both. */
function weldShape(x: number, y: number, thickness: number, unit: number): Shape {
  const [top, bottom] = [y - thickness / 2 - 1.3 * unit, y + thickness / 2 + 1.1 * unit]
  const d = `M${short(x - 4 * unit)} ${short(top + 1.3 * unit)}Q${short(x)} ${short(top - 1.6 * unit)} ${short(x + 4 * unit)} ${short(top + 1.3 * unit)}L${short(x + 1.2 * unit)} ${short(bottom)}h${short(-2.4 * unit)}Z`
  return filled(d, 'ink')
}

/** Short ticks for rust on the surface; a rusty edge where metal is eaten away. */
function rustShapes(plan: Plan, sheet: Sheet, damage: Damage): readonly Shape[] {
  const { grade } = sheet.layer
  const { unit } = plan
  if (grade === 'surface') return [surfaceTicks(plan, sheet)]
  if (grade !== 'pitted' && grade !== 'holed') return []
  const run = damagedRun(sheet)
  const paths = piecesOf(plan, sheet, damage).flatMap((piece) => {
    const edges = grade === 'holed' ? [piece.upper, piece.lower] : [piece[cavityFace(sheet)]]
    return edges.map((edge) => pathThrough(edge.filter(({ x }) => x > run.from && x < run.to)))
  })
  return [stroked(paths.join(''), 'rust', 1.7 * unit)]
}

function surfaceTicks({ unit }: Plan, sheet: Sheet): Shape {
  const side = cavityFace(sheet) === 'upper' ? -1 : 1
  const y = sheet.course.levelY + side * (sheet.thickness / 2 + 0.9 * unit)
  const ticks = ticksAlong(damagedRun(sheet)).map(
    (x) => `M${short(x)} ${short(y)}l${short(1.4 * unit)} ${short(side * 3.2 * unit)}`,
  )
  return stroked(ticks.join(''), 'rust', 1.2 * unit)
}

const isCoated = (section: SectionView, { state }: SectionLayer): boolean =>
  state === 'coated' || (state === 'closed over' && section.primed)

/** Primer on both faces from the flange on; the outer face of the closing panel carries its paint. */
function coatShapes(plan: Plan, section: SectionView, sheet: Sheet, piece: SheetPiece): readonly Shape[] {
  const { unit } = plan
  const beyondFlange = (edge: readonly Point[]) => edge.filter(({ x }) => x >= sheet.course.flangeTo)
  const face = (edge: readonly Point[], by: number, tone: Tone, width: number) =>
    stroked(pathThrough(beyondFlange(shifted(edge, by))), tone, width)
  const coats = isCoated(section, sheet.layer)
    ? [face(piece.upper, -1.5 * unit, 'coat', 2 * unit), face(piece.lower, 1.5 * unit, 'coat', 2 * unit)]
    : []
  const isPainted = section.painted && sheet.layer.closing
  return isPainted ? [...coats, face(piece.upper, -2.4 * unit, 'passed', 2.8 * unit)] : coats
}
