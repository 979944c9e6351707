import type { SectionView } from '../views/shared-views.ts'
import { cornerShapes, flangeShapes } from './section/flange-shapes.ts'
import { labelShapes, sideWords } from './section/section-labels.ts'
import { placeSheet, planOf, type SectionOptions } from './section/section-plan.ts'
import { sectionWords } from './section/section-words.ts'
import { sheetShapes } from './section/sheet-shapes.ts'
import type { Drawing } from './shapes.ts'

/**
 * A repair cut through its layers: the outside on top, the inside at the bottom, all of them in their flange at the left
 * and broken off at the right. Thickness is to scale with itself, much enlarged. Metal is hatched; put-right metal
 * is hatched the other way; unknown layers are ghosts; the closing panel is lifted off while the repair stands open.
 */
export function drawSection(section: SectionView, options: SectionOptions): Drawing {
  const plan = planOf(section, options)
  const sheets = section.layers.map((layer, index) => placeSheet(plan, section, layer, index))
  const labels = plan.labels ? labelShapes(plan, sheets) : { shapes: [], bottom: 0 }
  return {
    width: plan.width,
    height: Math.max(plan.height, labels.bottom + 6 * plan.unit),
    shapes: [
      ...cornerShapes(plan, section, sheets),
      ...sheets.flatMap((sheet) => sheetShapes(plan, section, sheet)),
      ...flangeShapes(plan, section, sheets),
      ...labels.shapes,
      ...(plan.labels ? sideWords(plan) : []),
    ],
    words: sectionWords(section, options.say),
  }
}
