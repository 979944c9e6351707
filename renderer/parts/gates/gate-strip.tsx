import { useMemo } from 'react'
import { drawGateStrip, drawMark, type StripMark } from '../../../domain/drawing/gate-strip-drawing.ts'
import { english } from '../../../domain/language/english.ts'
import type { OwnerLanguage } from '../../../domain/language/owner-language.ts'
import type { MarkKind } from '../../../domain/views/shared-views.ts'
import { DrawingView } from '../drawing/drawing.tsx'

/** The gates of a repair in their order: solid is passed, an open diamond next, a barred one held. */
export function GateStrip({
  marks,
  names = false,
  say = english,
}: {
  readonly marks: readonly StripMark[]
  readonly names?: boolean
  /** The language of what it is called. */
  readonly say?: OwnerLanguage
}) {
  const drawing = useMemo(
    () => drawGateStrip(marks, names ? { width: WIDTH_WITH_NAMES, names, say } : { width: WIDTH, say }),
    [marks, names, say],
  )
  return <DrawingView drawing={drawing} className={names ? 'gate-strip named' : 'gate-strip'} />
}

const WIDTH = 288
const WIDTH_WITH_NAMES = 560

/** One mark by itself, beside its word. */
export function MarkSign({ mark }: { readonly mark: MarkKind }) {
  return <DrawingView drawing={drawMark(mark)} isDecoration className="mark-sign" />
}
