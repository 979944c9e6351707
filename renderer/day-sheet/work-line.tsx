import { plural } from '../../domain/text/words.ts'
import { toBringWords } from '../../domain/views/work-words.ts'
import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { GateStrip } from '../parts/gates/gate-strip.tsx'
import { spentOf } from '../parts/hours/hours-bar.tsx'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import type { Clock } from '../parts/clock/use-clock.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './day-sheet.module.css'
import { isClockOn, lineWork } from './line-clock.ts'
import { LineName, LineSection } from './line-words.tsx'
import { PhotoButton } from './photo-button.tsx'
import { photoWorkOf, type LinePhotos } from './use-line-photos.ts'

/** One gate or task to be worked on: where, what is missing, a photo and the clock. The name opens it. */
export function WorkLine({
  line,
  view,
  clock,
  photos,
}: {
  readonly line: DaySheetLine
  readonly view: DaySheetView
  readonly clock: Clock
  readonly photos: LinePhotos
}) {
  const when = useWhen()
  const work = lineWork(line)
  const isOn = isClockOn(view, line)
  const taken = photoWorkOf(line)
  return (
    <li className={isOn ? `${styles.line} ${styles.on}` : styles.line}>
      <LineSection line={line} />
      <div className={styles.what}>
        <span className="small quiet">
          <span className={styles.car}>{line.carName}</span>, {line.place}
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
        <MissingWords missing={line.missing} onTheirWay={photos.onTheirWay(line)} />
      </div>
      <div className={styles.acts}>
        <PhotoButton line={line} photos={photos} />
        {isOn && view.clock !== null ? (
          <Button onClick={() => view.clock && clock.stop(view.clock)}>Stop clock</Button>
        ) : (
          work !== null && (
            <Button onClick={() => clock.start(work)}>
              {clock.mine === null ? 'Clock in' : 'Switch to this'}
              <span className="hidden-word">: {line.name}</span>
            </Button>
          )
        )}
      </div>
      {taken !== null && <TakenStrip carId={line.carId} repair={taken} />}
    </li>
  )
}

function MissingWords({
  missing,
  onTheirWay,
}: {
  readonly missing: readonly string[]
  readonly onTheirWay: number
}) {
  const sent = onTheirWay === 0 ? '' : `; ${plural('photo', onTheirWay)} on the way`
  if (missing.length === 0) return <span className="small is-passed">all there: sign it off{sent}</span>
  return (
    <span className="small quiet">
      {toBringWords(missing)}
      {sent}
    </span>
  )
}
