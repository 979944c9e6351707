import { Link } from '@tanstack/react-router'
import { asSentence } from '../../domain/views/work-words.ts'
import type { DaySheetLine } from '../../domain/views/view-shapes.ts'
import { CarSign } from '../parts/drawing/car-drawing.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './day-sheet.module.css'
import { waitsFor } from './line-clock.ts'

/** The name opens the repair, or the car of a task. */
export function LineName({ line }: { readonly line: DaySheetLine }) {
  return line.repairId === null ? (
    <Link to="/cars/$carId" params={{ carId: line.carId }} className={styles.name}>
      {line.name}
    </Link>
  ) : (
    <Link
      to="/cars/$carId/repairs/$repairId"
      params={{ carId: line.carId, repairId: line.repairId }}
      className={styles.name}
    >
      {line.name}
    </Link>
  )
}

/** The repair cut through its layers, small; for a task its car from above. */
export function LineSection({ line }: { readonly line: DaySheetLine }) {
  return (
    <div className={styles.section}>
      {line.section === null ? (
        <CarSign body={line.body} length={CAR_LENGTH} />
      ) : (
        <Section section={line.section} width={SECTION_WIDTH} labels={false} />
      )}
    </div>
  )
}

const SECTION_WIDTH = 104
const CAR_LENGTH = 92

/** What keeps a line from being worked on, and who clears it or when. */
export function WaitsWords({ line }: { readonly line: DaySheetLine }) {
  const when = useWhen()
  const hold = waitsFor(line)
  if (hold === undefined) return null
  return (
    <div className="small">
      <span className="is-accent">
        <MarkSign mark="held" /> {asSentence(hold.words)}
      </span>{' '}
      <span className="quiet">
        {hold.until === null ? `Cleared by ${hold.clearedBy}.` : `Until ${when.short(hold.until)}.`}
      </span>
    </div>
  )
}
