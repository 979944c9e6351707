import { useMemo } from 'react'
import { drawSection } from '../../domain/drawing/section-drawing.ts'
import type { SectionView } from '../../domain/views/shared-views.ts'
import { DrawingView } from './drawing.tsx'

/** A repair cut through its layers; what is dashed has not been seen or is off. */
export function Section({
  section,
  width = 380,
}: {
  readonly section: SectionView
  readonly width?: number
}) {
  const drawing = useMemo(() => drawSection(section, { width }), [section, width])
  return <DrawingView drawing={drawing} className="section" />
}
