import { drawShareBar } from '../../domain/drawing/share-bar-drawing.ts'
import type { AccuracyLine, TypeAccuracyLine, WithinView } from '../../domain/views/were-we-right-shapes.ts'
import { DrawingView } from '../parts/drawing.tsx'
import styles from './were-we-right.module.css'

/** How often the figures held, by one thing; of types also how their hours are banded now. */
export function AccuracyTable({
  title,
  lines,
}: {
  readonly title: string
  readonly lines: readonly (AccuracyLine | TypeAccuracyLine)[]
}) {
  return (
    <section className="stack-tight">
      <h2>{title}</h2>
      <ul className="lines">
        {lines.map((line) => (
          <li key={line.key} className={styles.line}>
            <div>
              <p className="strong">{line.name}</p>
              <p className="small quiet">{line.jobs === 0 ? 'none judged' : `${line.jobs} judged`}</p>
            </div>
            <SmallShare within={line.within80} percent={80} />
            <SmallShare within={line.within50} percent={50} />
            <div className="small">
              {line.bias !== null && <p>{line.bias.words}.</p>}
              {'methodWords' in line && <p className="quiet">{line.methodWords}.</p>}
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}

function SmallShare({ within, percent }: { readonly within: WithinView | null; readonly percent: number }) {
  if (within === null) return <p className="small quiet">{percent} % figures: nothing to judge</p>
  return (
    <div className={styles.share}>
      <DrawingView drawing={drawShareBar(within, BAR_WIDTH)} />
      <p className={within.verdict === 'too low' ? 'small is-accent' : 'small'}>{within.words}</p>
    </div>
  )
}

const BAR_WIDTH = 180
