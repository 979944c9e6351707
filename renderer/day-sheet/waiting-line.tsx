import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import styles from './day-sheet.module.css'
import { isClockOn } from './line-clock.ts'
import { LineName, LineSection, WaitsWords } from './line-words.tsx'

/** What cannot be worked on yet, why, and who can clear it. */
export function WaitingLine({ line, view }: { readonly line: DaySheetLine; readonly view: DaySheetView }) {
  const isOn = isClockOn(view, line)
  return (
    <li className={isOn ? `${styles.waiting} ${styles.on}` : styles.waiting}>
      <LineSection line={line} />
      <div>
        <LineName line={line} />
        <div className="small quiet">
          <span className={styles.car}>{line.carName}</span>, {line.gate ?? 'task'}
          {isOn && <span className="is-passed strong">; your clock runs on it</span>}
        </div>
      </div>
      <WaitsWords line={line} />
    </li>
  )
}
