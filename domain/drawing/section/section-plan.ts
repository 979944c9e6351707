import { english } from '../../language/english.ts'
import type { OwnerLanguage } from '../../language/owner-language.ts'
import type { SectionLayer, SectionView } from '../../views/shared-views.ts'
import { isPanelOff } from './section-words.ts'
import type { SheetCourse } from './sheet-metal.ts'

export interface SectionOptions {
  readonly width: number
  /** Size of a layer's name; 13 unless said. The metal is scaled with it. */
  readonly textSize?: number
  /** False leaves the words out, for small drawings beside words of their own. */
  readonly labels?: boolean
  /** The language of its words; English unless said. */
  readonly say?: OwnerLanguage
}

export interface Plan {
  /** 1 where a layer's name is 13 units high. */
  readonly unit: number
  readonly width: number
  readonly height: number
  readonly labels: boolean
  readonly say: OwnerLanguage
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

/** A layer with its place in the drawing. */
export interface Sheet {
  readonly layer: SectionLayer
  readonly index: number
  readonly course: SheetCourse
  readonly thickness: number
  readonly isOff: boolean
}

export function planOf({ layers }: SectionView, options: SectionOptions): Plan {
  const { width, textSize = 13, labels = true, say = english } = options
  const unit = labels ? textSize / 13 : Math.min(1, width / 190)
  const step = 40 * unit
  const lift = 15 * unit
  const top = (labels ? 34 : 14) * unit + lift
  const levels = Math.max(0, layers.length - 1) * step
  const end = labels ? Math.max(110 * unit, Math.min(width * 0.46, 196 * unit)) : width - 5 * unit
  return {
    unit,
    width,
    labels,
    say,
    textSize,
    end,
    labelX: end + 26 * unit,
    top,
    step,
    lift,
    // One sheet alone has a joggle, so that its flange is seen.
    flangeY: layers.length === 1 ? top + 14 * unit : top + levels / 2,
    height: top + levels + belowInside(labels, layers.length) * unit,
    thickness: layers.map(({ thicknessMm }) => sheetThickness(thicknessMm) * unit),
  }
}

/** Room below the innermost level, in units: a word, or the joggled flange of one thick sheet with its coat. */
function belowInside(labels: boolean, layerCount: number): number {
  if (labels) return 32
  return layerCount === 1 ? 28 : 22
}

/** 1 mm is drawn 6.2 units thick and every further millimetre adds 3.2, up to 18. */
function sheetThickness(millimetres: number): number {
  return Math.min(18, 3 + 3.2 * millimetres)
}

export function placeSheet(plan: Plan, section: SectionView, layer: SectionLayer, index: number): Sheet {
  const thickness = plan.thickness[index] ?? 0
  const isOff = isPanelOff(section, layer)
  const lift = isOff ? plan.lift : 0
  const stack = plan.thickness.reduce((sum, each) => sum + each, 0)
  const outside = plan.thickness.slice(index + 1).reduce((sum, each) => sum + each, 0)
  const levelY = plan.top + (section.layers.length - 1 - index) * plan.step
  const farthest = Math.max(1, plan.flangeY - plan.top)
  const nearness = 1 - Math.abs(levelY - plan.flangeY) / farthest
  return {
    layer,
    index,
    thickness,
    isOff,
    course: {
      flangeFrom: 12 * plan.unit,
      // The outer of two sheets bends first, so that they keep apart on the slope.
      flangeTo: (40 + 12 * nearness) * plan.unit,
      flangeY: plan.flangeY - stack / 2 + outside + thickness / 2 - lift,
      levelY: levelY - lift,
      end: plan.end,
    },
  }
}
