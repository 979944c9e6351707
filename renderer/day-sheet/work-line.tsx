import { Link } from '@tanstack/react-router'
import { toBringWords } from '../../domain/views/work-words.ts'
import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/button.tsx'
import { GateStrip } from '../parts/gate-strip.tsx'
import { spentOf } from '../parts/hours-bar.tsx'
import type { Clock } from '../parts/use-clock.tsx'
import { useWhen } from '../parts/when.tsx'
import styles from './day-sheet.module.css'
import { lineTarget } from '../parts/line-target.ts'

/** One gate or task to be worked on: where, what is missing, and the clock. The name opens it. */
export function WorkLine({
  line,
  view,
  clock,
}: {
  readonly line: DaySheetLine
  readonly view: DaySheetView
  readonly clock: Clock
}) {
  const when = useWhen()
  const target = lineTarget(line)
  const isOn = isClockOn(view, line)
  return (
    <li className={isOn ? `${styles.line} ${styles.on}` : styles.line}>
      <div className={styles.what}>
        <span className="small quiet">
          {line.carName}, {line.place}
          {line.promised !== null && `; promised ${when.day(line.promised)}`}
          {line.planned !== null && `; planned for you from ${when.short(line.planned)}`}
        </span>
        <LineName line={line} />
        <span>
          <span className="strong">{line.gate ?? 'task'}</span>
          {line.hotWork && ', hot work'}
          <span className="quiet">, {spentOf(line.hours)} spent</span>
        </span>
      </div>
      <div className={styles.standing}>
        {line.marks.length > 0 && <GateStrip marks={line.marks} />}
        <MissingWords missing={line.missing} />
      </div>
      {isOn && view.clock !== null ? (
        <Button onClick={() => view.clock && clock.stop(view.clock)}>Stop clock</Button>
      ) : (
        target !== null && (
          <Button
            onClick={() =>
              clock.start({
                carId: line.carId,
                targets: [target],
                hotWork: line.hotWork,
                isRework: false,
              })
            }
          >
            {clock.mine === null ? 'Clock in' : 'Switch to this'}
          </Button>
        )
      )}
    </li>
  )
}

function MissingWords({ missing }: { readonly missing: readonly string[] }) {
  if (missing.length === 0) return <span className="small is-passed">all there: sign it off</span>
  return <span className="small quiet">{toBringWords(missing)}</span>
}

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

/** The person's clock runs on this line. */
function isClockOn({ entries }: DaySheetView, line: DaySheetLine): boolean {
  const on = entries.find(({ running }) => running)?.on
  if (on?.kind !== 'work') return false
  return on.targets.some((target) =>
    target.kind === 'gate'
      ? target.repairId === line.repairId && target.gate === line.gate
      : target.taskId === line.taskId,
  )
}
