import { GateStrip } from '../parts/gates/gate-strip.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** Wider than this the drawing gains nothing. */
const MOST_WIDTH = 620

/** Below this the names of the gates would run into each other. */
const NAMES_WIDTH = 500

/** The repair cut through its layers, with its gates below as on a ruler. */
export function SectionFigure() {
  const { view } = useRepair()
  const { ref, width } = useWidth<HTMLDivElement>()
  const drawn = Math.min(width, MOST_WIDTH)
  return (
    <div ref={ref} className={styles.figure}>
      {width > 0 && <Section section={view.section} width={drawn} />}
      <GateStrip marks={view.repair.marks} names={width >= NAMES_WIDTH} />
    </div>
  )
}
