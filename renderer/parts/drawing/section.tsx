import { useMemo } from 'react'
import { drawSection } from '../../../domain/drawing/section-drawing.ts'
import { english } from '../../../domain/language/english.ts'
import type { OwnerLanguage } from '../../../domain/language/owner-language.ts'
import type { SectionView } from '../../../domain/views/shared-views.ts'
import { DrawingView } from './drawing.tsx'

/** A repair cut through its layers; what is dashed has not been seen or is off. */
export function Section({
  section,
  width = 380,
  labels = true,
  say = english,
}: {
  readonly section: SectionView
  readonly width?: number
  /** False for a small one beside words of its own. */
  readonly labels?: boolean
  /** The language of its words. */
  readonly say?: OwnerLanguage
}) {
  const drawing = useMemo(() => drawSection(section, { width, labels, say }), [section, width, labels, say])
  return <DrawingView drawing={drawing} className="section" />
}
