import { GRADES, type Grade } from '../../domain/facts/shapes.ts'
import type { CarId } from '../../domain/ids.ts'
import type { EstimateRepairView } from '../../domain/views/estimate-shapes.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { GradeSwatch } from './estimate-grade-swatch.tsx'
import styles from './estimate.module.css'

/** The grade of the outermost layer as it looks before anything is cut: one tap, at the car too. */
export function EstimateOutside({
  carId,
  repair: { id, name, state, outside },
}: {
  readonly carId: CarId
  readonly repair: EstimateRepairView
}) {
  const command = useCommand()
  const when = useWhen()
  const said =
    outside === null
      ? null
      : `${outside.grade}, said by ${outside.by} on ${when.day(outside.at)}${outside.note === '' ? '' : `: ${outside.note}`}`
  if (state !== 'before opening')
    return <p className="small">Seen from outside before it was opened: {said ?? 'nobody has said'}.</p>
  const choose = (grade: Grade) =>
    void command.send({ kind: 'gradeOutside', carId, payload: { repairId: id, grade, note: '' } })
  return (
    <div className="stack-tight">
      <div className="label">How does its outermost layer look from outside?</div>
      <div className={styles.grades} role="group" aria-label={`Grade of ${name} from outside`}>
        {GRADES.map((grade) => (
          <button
            key={grade}
            type="button"
            className={styles.grade}
            aria-pressed={outside?.grade === grade}
            disabled={command.isBusy}
            onClick={() => choose(grade)}
          >
            <GradeSwatch grade={grade} />
            {grade}
          </button>
        ))}
      </div>
      {said !== null && <p className="small quiet">Now: {said}.</p>}
      <RefusalNote refusal={command.refusal} />
    </div>
  )
}
