import { useState } from 'react'
import { fixed, hours } from '../../domain/text/words.ts'
import type { CarView, EstimateLineView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { EstimateLineDialog } from './estimate-line-dialog.tsx'
import styles from './estimate.module.css'

/** Lines of the estimate: three points, what is agreed, who pays, and whether they have accepted it. */
export function EstimateLines({
  view,
  lines,
}: {
  readonly view: CarView
  readonly lines: readonly EstimateLineView[]
}) {
  const [line, setLine] = useState<EstimateLineView | null>(null)
  return (
    <>
      <ul className={`lines ${styles.agreedLines}`}>
        {lines.map((each) => (
          <li key={each.lineId} className={styles.line}>
            <span>
              <span className="strong">{each.gate ?? each.what}</span>{' '}
              <span className="quiet small">{detailsOf(each)}</span>
            </span>
            <span className={each.accepted ? 'is-passed small' : 'is-accent small'}>
              {each.accepted ? '✓ accepted' : 'waits'}
            </span>
            <span className="strong number">{hours(each.agreed)}</span>
            <WordButton onClick={() => setLine(each)}>
              change<span className="hidden-word"> {each.what}</span>
            </WordButton>
          </li>
        ))}
      </ul>
      {line !== null && <EstimateLineDialog view={view} line={line} onClose={() => setLine(null)} />}
    </>
  )
}

/** '1.0 – 2.0 – 3.0 h, the owner pays, first 2.5 h' */
function detailsOf({ hours: points, payer, agreed, baseline }: EstimateLineView): string {
  const three = [points.shortest, points.likely, points.longest].map((each) => fixed(each, 1)).join(' – ')
  const first = baseline === agreed ? '' : `, first ${hours(baseline)}`
  return `${three} h, the ${payer} pays${first}`
}
