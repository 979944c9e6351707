import { Link } from '@tanstack/react-router'
import { intervalWords, drawShareBar } from '../../domain/drawing/share-bar-drawing.ts'
import { drawJudgedDots } from '../../domain/drawing/judged-dots-drawing.ts'
import { hours, plural } from '../../domain/text/words.ts'
import type { JudgedDot, WereWeRightView, WithinView } from '../../domain/views/were-we-right-shapes.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import styles from './were-we-right.module.css'

/** All finished repairs together: each as a dot, and how often the figures held. */
export function AccuracyFigure({ view }: { readonly view: WereWeRightView }) {
  const { ref, width } = useWidth<HTMLDivElement>()
  const { within50, within80, bias } = view.all
  const over = view.dots.filter(({ actual, p80 }) => actual > p80).toReversed()
  return (
    <section className="stack-tight">
      <h2>{view.last === null ? 'All finished repairs' : lastWords(view.all.jobs)}</h2>
      <div className={styles.figure}>
        <div className="stack-tight">
          <div ref={ref} className={styles.dots}>
            {width > 0 && <DrawingView drawing={drawJudgedDots(view.dots, Math.max(280, width))} />}
          </div>
          <p className="small quiet">
            Hours taken as a multiple of the estimate, in the order of finishing. Half of the repairs should
            stay at or under the solid line, four of five at or under the dashed one; a diamond took more.
          </p>
        </div>
        <div className="stack">
          {within80 !== null && <Share within={within80} />}
          {within50 !== null && <Share within={within50} />}
          {bias !== null && (
            <p>
              {bias.words}. Half of the repairs took at most {bias.median.toFixed(2)} times their estimate.
            </p>
          )}
        </div>
      </div>
      <Overruns over={over} />
    </section>
  )
}

const lastWords = (jobs: number): string => `The last ${plural('finished repair', jobs)}`

/** The bar with its words: what was counted, and what of all such repairs is likely. */
function Share({ within }: { readonly within: WithinView }) {
  return (
    <div className={styles.share}>
      <p className={within.verdict === 'too low' ? 'strong is-accent' : 'strong'}>{within.words}.</p>
      <DrawingView drawing={drawShareBar(within, BAR_WIDTH)} />
      <p className="small quiet">
        Of all such repairs between {intervalWords(within)} is likely (95 % interval).
      </p>
    </div>
  )
}

const BAR_WIDTH = 300
const MOST_NAMED = 5

function Overruns({ over }: { readonly over: readonly JudgedDot[] }) {
  if (over.length === 0) return null
  return (
    <div className="stack-tight">
      <h3>
        Over their 80 % figure: {over.length}
        {over.length > MOST_NAMED && `, of which these ${MOST_NAMED} were finished last`}
      </h3>
      <ul className={`lines ${styles.over}`}>
        {over.slice(0, MOST_NAMED).map(({ carId, repairId, name, actual, estimated, p80 }) => (
          <li key={`${carId} ${repairId}`} className="line">
            <Link to="/cars/$carId/repairs/$repairId" params={{ carId, repairId }}>
              {name}
            </Link>
            <span className="small">
              {hours(actual)} taken; {hours(p80)} said with 80 %, {hours(estimated)} estimated
            </span>
          </li>
        ))}
      </ul>
    </div>
  )
}
