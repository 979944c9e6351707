import type { DaySheetLine } from '../../domain/views/view-shapes.ts'
import { MarkSign } from '../parts/gate-strip.tsx'
import { useWhen } from '../parts/when.tsx'
import styles from './day-sheet.module.css'
import { LineName } from './work-line.tsx'

/** What cannot be worked on yet, why, and who can clear it. */
export function WaitingLine({ line }: { readonly line: DaySheetLine }) {
  const when = useWhen()
  const hold = line.holds.find(({ released, broughtByWork }) => released === null && !broughtByWork)
  return (
    <li className={styles.waiting}>
      <div>
        <LineName line={line} />
        <div className="small quiet">
          {line.carName}, {line.gate ?? 'task'}
        </div>
      </div>
      {hold !== undefined && (
        <div className="small">
          <span className="is-accent">
            <MarkSign mark="held" /> {hold.words}
          </span>{' '}
          <span className="quiet">
            {hold.until === null ? `Cleared by ${hold.clearedBy}.` : `Until ${when.short(hold.until)}.`}
          </span>
        </div>
      )}
    </li>
  )
}
