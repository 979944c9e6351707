import { runningTime } from '../../domain/text/words.ts'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import { asSentence } from '../../domain/views/work-words.ts'
import { Button } from '../parts/form/button.tsx'
import type { Clock } from '../parts/clock/use-clock.tsx'
import { useNow } from '../parts/frame/use-now.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './day-sheet.module.css'
import { clockedLine, lineWork, waitsFor } from './line-clock.ts'
import { PhotoButton } from './photo-button.tsx'
import type { LinePhotos } from './use-line-photos.ts'

/**
 * What the person's clock runs on, since when and how long, with a photo of it and the stop; without one, the start of
 * what comes first. On touch it lies at the lower edge, under the thumb.
 */
export function MyClock({
  view,
  clock,
  photos,
  onWorkshop,
}: {
  readonly view: DaySheetView
  readonly clock: Clock
  readonly photos: LinePhotos
  readonly onWorkshop: () => void
}) {
  const { clock: running, canDo } = view
  const line = running === null ? (canDo[0] ?? null) : clockedLine(view)
  const work = line && lineWork(line)
  return (
    <section
      className={running === null ? styles.clock : `${styles.clock} ${styles.runs}`}
      aria-label="Clock"
    >
      {running === null ? <NoClock first={line} /> : <Running clock={running} line={line} />}
      <div className={styles.clockActs}>
        {line !== null && <PhotoButton line={line} photos={photos} />}
        {running !== null && (
          <Button kind="main" onClick={() => clock.stop(running)}>
            Stop clock
          </Button>
        )}
        {running === null && work !== null && (
          <Button kind="main" onClick={() => clock.start(work)}>
            Start work
            {line?.gate && <span className={styles.aim}>{line.gate}</span>}
          </Button>
        )}
        {running === null && work === null && <Button onClick={onWorkshop}>Workshop time</Button>}
      </div>
    </section>
  )
}

function NoClock({ first }: { readonly first: DaySheetLine | null }) {
  return (
    <p className={styles.clockWords}>
      <span className={styles.clockHead}>No clock runs.</span>
      <span className={styles.clockOn}>
        {first === null ? (
          <span className="quiet">Nothing is free for you now.</span>
        ) : (
          <>
            <span className="quiet">Next: </span>
            <span className="strong">{first.name}</span>
          </>
        )}
      </span>
      <span className={styles.clockSince}>
        {first === null ? 'The workshop itself always is.' : first.carName}
      </span>
    </p>
  )
}

function Running({ clock, line }: { readonly clock: ClockView; readonly line: DaySheetLine | null }) {
  const when = useWhen()
  const now = useNow()
  const hold = line === null ? undefined : waitsFor(line)
  return (
    <p className={styles.clockWords}>
      <span className={styles.clockHead}>{runningTime(now - clock.since)}</span>
      <span className={`${styles.clockOn} strong`}>{clock.what}</span>
      <span className={styles.clockSince}>
        {clock.carName}, since {when.short(clock.since)}
        {clock.hotWork && ', hot work: a fire watch follows'}
        {clock.rework && ', rework'}
      </span>
      {clock.pastDayEnd && (
        <span className={`${styles.clockMind} is-accent`}>
          Past your day: it counts to {when.short(clock.countsTo)} until you confirm it.
        </span>
      )}
      {hold !== undefined && (
        <span className={`${styles.clockMind} is-accent`}>It waits: {asSentence(hold.words)}</span>
      )}
    </p>
  )
}
