import { useQuery } from '@tanstack/react-query'
import { drawHoursCurves } from '../../domain/drawing/hours-curves-drawing.ts'
import type { CarId, VisitId } from '../../domain/ids.ts'
import { fixed, plural } from '../../domain/text/words.ts'
import type { VisitCurves } from '../../domain/views/variance-shapes.ts'
import { api } from '../client.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import styles from './variance.module.css'

/** Planned, earned and spent hours of a visit over its weeks, and its schedule in weeks. */
export function CurvesFigure({ carId, visitId }: { readonly carId: CarId; readonly visitId: VisitId }) {
  const query = useQuery(api.varianceCurves.queryOptions({ carId, visitId }))
  return (
    <section className="stack-tight">
      <h3>Hours over the weeks</h3>
      <Loaded query={query}>{(curves) => <Curves curves={curves} />}</Loaded>
    </section>
  )
}

const LEAST_WIDTH = 340
const MOST_WIDTH = 960

function Curves({ curves }: { readonly curves: VisitCurves }) {
  const { ref, width } = useWidth<HTMLDivElement>()
  const drawing = drawHoursCurves(curves, Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, width)))
  return (
    <figure className={styles.curves} ref={ref}>
      {drawing === null ? (
        <p className="quiet">
          Nothing is planned, earned or spent yet; the curves begin with the first of it.
        </p>
      ) : (
        width > 0 && <DrawingView drawing={drawing} />
      )}
      <figcaption className="quiet">{scheduleWords(curves)}</figcaption>
    </figure>
  )
}

/** Earned schedule in words: what was earned, when the plan would have earned it, and how far that lies from now. */
function scheduleWords({ schedule }: VisitCurves): string {
  if (schedule === null)
    return 'No plan was taken for this work, so it cannot be said how far it is ahead or behind. Take a plan on the Plan screen.'
  const {
    earnedSchedule,
    scheduleVariance,
    schedulePerformanceIndex,
    plannedDuration,
    estimateAtCompletion,
  } = schedule
  const where =
    Math.abs(scheduleVariance) < 0.05
      ? 'just as planned'
      : `${fixed(Math.abs(scheduleVariance), 1)} weeks ${scheduleVariance < 0 ? 'behind' : 'ahead of'} the plan`
  const index =
    schedulePerformanceIndex === null ? '' : `, index SPI(t) ${fixed(schedulePerformanceIndex, 2)}`
  const end =
    estimateAtCompletion === null
      ? ''
      : ` At this pace the ${plural('week', plannedDuration)} planned become ${fixed(estimateAtCompletion, 1)}.`
  return `Earned by now is what the plan earns in ${fixed(earnedSchedule, 1)} weeks: ${where}${index}.${end}`
}
