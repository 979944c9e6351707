import { hours } from '../../domain/text/words.ts'
import type { DaySheetView } from '../../domain/views/view-shapes.ts'
import { Button, WordButton } from '../parts/button.tsx'
import type { Clock } from '../parts/use-clock.tsx'
import { useNow } from '../parts/use-now.ts'
import { useWhen } from '../parts/when.tsx'
import styles from './day-sheet.module.css'

const HOUR_MS = 3_600_000

/** What the person's clock runs on, since when and how long; one tap stops it. */
export function MyClock({
  view,
  clock,
  onSeveral,
  onWorkshop,
  onLog,
}: {
  readonly view: DaySheetView
  readonly clock: Clock
  /** Null where no car has more than one thing to do. */
  readonly onSeveral: (() => void) | null
  readonly onWorkshop: () => void
  readonly onLog: () => void
}) {
  const when = useWhen()
  const now = useNow()
  const running = view.clock
  return (
    <section
      className={running === null ? styles.clock : `${styles.clock} ${styles.runs}`}
      aria-label="Clock"
    >
      {running === null ? (
        <p className={styles.clockWords}>
          <span className="strong">No clock runs.</span>{' '}
          <span className="quiet">Clock in on a line below, or on the workshop.</span>
        </p>
      ) : (
        <>
          <p className={styles.clockWords}>
            <span className="figure">{hours((now - running.since) / HOUR_MS)}</span>{' '}
            <span className="strong">{running.what}</span>
            <br />
            <span className="quiet small">
              {running.carName}, since {when.short(running.since)}
              {running.hotWork && ', hot work: a fire watch follows'}
              {running.pastDayEnd && '.'}
            </span>
            {running.pastDayEnd && (
              <span className="is-accent small">
                {' '}
                Past the end of your day: it counts to {when.short(running.countsTo)} until you confirm it.
              </span>
            )}
          </p>
          <Button kind="main" onClick={() => clock.stop(running)}>
            Stop clock
          </Button>
        </>
      )}
      <span className={styles.clockMore}>
        {onSeveral !== null && <WordButton onClick={onSeveral}>several at once</WordButton>}
        <WordButton onClick={onWorkshop}>workshop time</WordButton>
        <WordButton onClick={onLog}>log time by hand</WordButton>
      </span>
    </section>
  )
}
