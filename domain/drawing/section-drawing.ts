import type { SectionLayer, SectionView } from '../views/shared-views.ts'
import { damageOf, NO_LOSS, ticksAlong, type Damage, type DamagedRun } from './damage.ts'
import { isPanelOff, isPutRight, isUnknown, layerWords, sectionWords } from './section-words.ts'
import {
  type Drawing,
  filled,
  pathThrough,
  type Point,
  type Shape,
  short,
  stroked,
  type Tone,
  written,
} from './shapes.ts'
import {
  centreLine,
  hatchLines,
  runStart,
  type SheetCourse,
  sheetPiece,
  type SheetPiece,
  shifted,
} from './sheet-metal.ts'
import { wrapText } from './text-fit.ts'

export interface SectionOptions {
  readonly width: number
  /** Size of a layer's name; 13 unless said. The metal is scaled with it. */
  readonly textSize?: number
  /** False leaves the words out, for small drawings beside words of their own. */
  readonly labels?: boolean
}

/**
 * A repair cut through its layers: the outside on top, the inside at the bottom, all of them in their flange at the left
 * and broken off at the right. Thickness is to scale with itself, much enlarged. Metal is hatched; put-right metal
 * is hatched the other way; unknown layers are ghosts; the closing panel is lifted off while the repair stands open.
 */
export function drawSection(section: SectionView, options: SectionOptions): Drawing {
  const plan = planOf(section, options)
  const sheets = section.layers.map((layer, index) => ({ layer, index, ...placeSheet(plan, section, index) }))
  const labels = plan.labels ? labelShapes(plan, section, sheets) : NO_LABELS
  return {
    width: plan.width,
    height: Math.max(plan.height, labels.bottom + 2 * plan.unit),
    shapes: [
      ...sheets.flatMap((sheet) => sheetShapes(plan, section, sheet)),
      ...flangeShapes(plan, section, sheets),
      ...labels.shapes,
      ...(plan.labels ? sideWords(plan) : []),
    ],
    words: sectionWords(section),
  }
}

interface Plan {
  /** 1 where a layer's name is 13 units high. */
  readonly unit: number
  readonly width: number
  readonly height: number
  readonly labels: boolean
  readonly textSize: number
  /** Where the sheets break off. */
  readonly end: number
  readonly labelX: number
  /** Level of the outermost sheet in its place, and from sheet to sheet. */
  readonly top: number
  readonly step: number
  readonly flangeY: number
  readonly lift: number
  readonly thickness: readonly number[]
}

interface Sheet {
  readonly layer: SectionLayer
  readonly index: number
  readonly course: SheetCourse
  readonly thickness: number
  readonly isOff: boolean
}

const NO_LABELS = { shapes: [] as readonly Shape[], bottom: 0 }

function planOf({ layers }: SectionView, options: SectionOptions): Plan {
  const { width, textSize = 13, labels = true } = options
  const unit = labels ? textSize / 13 : Math.min(1, width / 190)
  const step = 38 * unit
  const lift = 15 * unit
  const top = (labels ? 34 : 14) * unit + lift
  const levels = Math.max(0, layers.length - 1) * step
  const end = labels ? Math.max(110 * unit, Math.min(width * 0.46, 196 * unit)) : width - 5 * unit
  return {
    unit,
    width,
    labels,
    textSize,
    end,
    labelX: end + 26 * unit,
    top,
    step,
    lift,
    // One sheet alone has a joggle, so that its flange is seen.
    flangeY: layers.length === 1 ? top + 14 * unit : top + levels / 2,
    height: top + levels + (labels ? 32 : 22) * unit,
    thickness: layers.map(({ thicknessMm }) => sheetThickness(thicknessMm) * unit),
  }
}

/** 1 mm is drawn 5 units thick and every further millimetre adds 2.8, up to 16. */
function sheetThickness(millimetres: number): number {
  return Math.min(16, 2.2 + 2.8 * millimetres)
}

function placeSheet(plan: Plan, section: SectionView, index: number): Omit<Sheet, 'layer' | 'index'> {
  const layer = section.layers[index]
  const thickness = plan.thickness[index] ?? 0
  const isOff = layer !== undefined && isPanelOff(section, layer)
  const lift = isOff ? plan.lift : 0
  const stack = plan.thickness.reduce((sum, each) => sum + each, 0)
  const outside = plan.thickness.slice(index + 1).reduce((sum, each) => sum + each, 0)
  return {
    thickness,
    isOff,
    course: {
      flangeFrom: 12 * plan.unit,
      flangeTo: 40 * plan.unit,
      flangeY: plan.flangeY - stack / 2 + outside + thickness / 2 - lift,
      levelY: plan.top + (section.layers.length - 1 - index) * plan.step - lift,
      end: plan.end,
    },
  }
}

function sheetShapes(plan: Plan, section: SectionView, sheet: Sheet): readonly Shape[] {
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

function ghostShapes(plan: Plan, { course, thickness, isOff }: Sheet): readonly Shape[] {
  const { outline } = sheetPiece(centreLine(course, 60 * plan.unit), thickness, () => NO_LOSS, true)
  const size = plan.textSize
  const at = { x: (runStart(course) + course.end) / 2, y: course.levelY + size * 0.36 }
  const patch = `M${short(at.x - size * 0.55)} ${short(course.levelY)}h${short(size * 1.1)}`
  return [
    stroked(pathThrough(outline, true), isOff ? 'ink' : 'quiet', 0.8 * plan.unit, [
      3 * plan.unit,
      2.6 * plan.unit,
    ]),
    stroked(patch, 'sheet', thickness + 3 * plan.unit),
    written('?', at, size, { anchor: 'middle', bold: true, tone: 'quiet' }),
  ]
}

/** Only the line where the sheet once was, and rusty stumps at both ends of the run. */
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
    filled(pathThrough(stump.outline, true), 'steel', 'ink', 0.9 * unit),
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

/** Spot welds through the sheets that are in place, and sealer along the flange's edge and in the seams behind it. */
function flangeShapes(plan: Plan, section: SectionView, sheets: readonly Sheet[]): readonly Shape[] {
  const placed = sheets.filter(({ isOff }) => !isOff)
  const { unit } = plan
  const seams = placed.slice(1).map((upper) => upper.course.flangeY + upper.thickness / 2)
  const spots = seams.map((y) => filled(spot(26 * unit, y, unit), 'ink'))
  if (!section.sealed) return spots
  const [outer, inner] = [placed.at(-1), placed[0]]
  if (!outer || !inner) return spots
  const top = outer.course.flangeY - outer.thickness / 2
  const bottom = inner.course.flangeY + inner.thickness / 2
  return [
    ...spots,
    filled(bead(12 * unit, top, bottom, unit), 'sealer', 'ink', 0.5 * unit),
    ...seams.map((y) => filled(fillet(41 * unit, y, unit), 'sealer')),
  ]
}

function spot(x: number, y: number, unit: number): string {
  const [rx, ry] = [4.6 * unit, 1.5 * unit].map(short)
  return `M${short(x - 4.6 * unit)} ${short(y)}A${rx} ${ry} 0 1 0 ${short(x + 4.6 * unit)} ${short(y)}A${rx} ${ry} 0 1 0 ${short(x - 4.6 * unit)} ${short(y)}Z`
}

/** A bead over the edges of the flange. */
function bead(x: number, top: number, bottom: number, unit: number): string {
  const [high, low] = [top - 1.6 * unit, bottom + 1.6 * unit].map(short)
  const [right, belly] = [x + 2.6 * unit, x - 7.5 * unit].map(short)
  return `M${right} ${high}C${belly} ${high} ${belly} ${low} ${right} ${low}Z`
}

/** Where two sheets part. */
function fillet(x: number, y: number, unit: number): string {
  const [left, right] = [x - 3 * unit, x + 7 * unit].map(short)
  const [high, low] = [y - 1.8 * unit, y + 1.8 * unit].map(short)
  return `M${left} ${short(y)}L${right} ${high}Q${short(x + 4.6 * unit)} ${short(y)} ${right} ${low}Z`
}

/** Name and words of every layer beside the end of its sheet, pushed apart where they would touch. */
function labelShapes(
  plan: Plan,
  section: SectionView,
  sheets: readonly Sheet[],
): { readonly shapes: readonly Shape[]; readonly bottom: number } {
  const { textSize: size, unit, labelX } = plan
  const detail = size * 0.92
  const line = detail * 1.28
  const room = plan.width - labelX
  let free = size
  const shapes: Shape[] = []
  for (const sheet of sheets.toReversed()) {
    const names = wrapText(sheet.layer.name, room / 1.06, size, 2)
    const words = wrapText(layerWords(sheet.layer, isPanelOff(section, sheet.layer)), room, detail, 4)
    const height = names.length * size * 1.2 + words.length * line
    const y = Math.max(free, sheet.course.levelY - (height - size) / 2 + size * 0.2)
    shapes.push(...leaderShapes(plan, sheet, y - size * 0.34))
    names.forEach((text, row) =>
      shapes.push(written(text, { x: labelX, y: y + row * size * 1.2 }, size, { bold: true })),
    )
    const below = y + (names.length - 1) * size * 1.2 + line * 1.05
    words.forEach((text, row) =>
      shapes.push(written(text, { x: labelX, y: below + row * line }, detail, { tone: 'quiet' })),
    )
    free = y + height + 5 * unit
  }
  return { shapes, bottom: free - size - 4 * unit }
}

function leaderShapes({ unit, labelX }: Plan, { course }: Sheet, y: number): readonly Shape[] {
  const { end, levelY } = course
  const from = end - 5 * unit
  const r = short(1.7 * unit)
  const dot = `M${short(from - 1.7 * unit)} ${short(levelY)}a${r} ${r} 0 1 0 ${short(3.4 * unit)} 0a${r} ${r} 0 1 0 ${short(-3.4 * unit)} 0Z`
  const way = `M${short(from)} ${short(levelY)}L${short(labelX - 12 * unit)} ${short(y)}H${short(labelX - 4 * unit)}`
  return [stroked(way, 'quiet', 0.7 * unit), filled(dot, 'ink')]
}

function sideWords({ textSize, unit, top, lift, height }: Plan): readonly Shape[] {
  const size = textSize * 0.85
  const outside = { x: 2 * unit, y: Math.max(size, top - lift - 12 * unit) }
  return [
    written('outside', outside, size, { tone: 'quiet' }),
    written('inside', { x: 2 * unit, y: height - 4 * unit }, size, { tone: 'quiet' }),
  ]
}
