import { sectionAsBuilt } from '../../domain/drawing/section-as-built.ts'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import { GRADES, type Grade } from '../../domain/facts/shapes.ts'
import { layerIdSchema } from '../../domain/ids.ts'
import type { SectionView } from '../../domain/views/shared-views.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import styles from './estimate.module.css'

/** A grade as the section draws it: one thick sheet, so that it is known by its shape and not by a colour. */
export function GradeSwatch({ grade }: { readonly grade: Grade }) {
  return <DrawingView drawing={drawings[grade]} className={styles.swatch ?? ''} isDecoration />
}

const sheetOf = (grade: Grade): SectionView =>
  sectionAsBuilt([
    {
      id: layerIdSchema.parse(`layer-as-${grade}`),
      name: grade,
      thicknessMm: 3.6,
      loadBearing: false,
      closing: false,
      grade,
    },
  ])

const drawings = Object.fromEntries(
  GRADES.map((grade) => [grade, drawSection(sheetOf(grade), { width: 84, labels: false })]),
) as unknown as Readonly<Record<Grade, ReturnType<typeof drawSection>>>
