import type { HiddenLayerView, LikelyGradeView } from '../../domain/views/estimate-shapes.ts'
import { GradeSwatch } from './estimate-grade-swatch.tsx'
import styles from './estimate.module.css'

/** The hidden layers, outermost first as they are drawn: how likely each grade is, or what was found. */
export function EstimateLayers({ layers }: { readonly layers: readonly HiddenLayerView[] }) {
  if (layers.length === 0) return <p className="quiet">Nothing is hidden: it has one layer.</p>
  return (
    <div className={styles.layers}>
      {layers.toReversed().map((layer) => (
        <div key={layer.id} className="stack-tight">
          <h4>{layer.name}</h4>
          {layer.likely !== null && <LikelyGrades name={layer.name} likely={layer.likely} />}
          <p className="small quiet">{layer.words}</p>
        </div>
      ))}
    </div>
  )
}

function LikelyGrades({
  name,
  likely,
}: {
  readonly name: string
  readonly likely: readonly LikelyGradeView[]
}) {
  return (
    <ul aria-label={`How likely each grade of ${name} is`}>
      {likely.map(({ grade, share, found, seen }) => (
        <li key={grade} className={styles.likely}>
          <GradeSwatch grade={grade} />
          <span>{grade}</span>
          <span className={styles.track} aria-hidden>
            <span className={styles.fill} style={{ width: `${share * 100}%` }} />
          </span>
          <span className="number strong">{percentWords(share)}</span>
          <span className="small quiet">{seen === 0 ? '' : `${found} of ${seen}`}</span>
        </li>
      ))}
    </ul>
  )
}

const percentWords = (share: number): string =>
  share > 0 && share < 0.01 ? 'under 1 %' : `${Math.round(share * 100)} %`
