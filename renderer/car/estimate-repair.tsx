import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { agreedWord } from '../../domain/drawing/hours-band-drawing.ts'
import { rangeWords } from '../../domain/text/likely-words.ts'
import { hours, plural } from '../../domain/text/words.ts'
import type { EstimateRepairView } from '../../domain/views/estimate-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import { EstimateLayers } from './estimate-layers.tsx'
import { EstimateLines } from './estimate-lines.tsx'
import { EstimateOutside } from './estimate-outside.tsx'
import styles from './estimate.module.css'

/** One repair unfolded: how it looks from outside, what it may hide, what its band rests on, and its lines. */
export function EstimateRepair({
  view,
  repair,
}: {
  readonly view: CarView
  readonly repair: EstimateRepairView
}) {
  const [isOpen, setIsOpen] = useState(false)
  const { ref, width } = useWidth<HTMLDivElement>()
  const lines = view.estimate.filter(({ repairId }) => repairId === repair.id)
  const { carId } = view.header
  return (
    <div className={styles.unfolded}>
      <EstimateOutside carId={carId} repair={repair} />
      <div className={styles.look}>
        <div ref={ref}>{width > 0 && <Section section={repair.section} width={Math.min(width, 420)} />}</div>
        <EstimateLayers layers={repair.layers} />
      </div>
      <div className="small">
        {figureWords(repair).map((words) => (
          <p key={words}>{words}</p>
        ))}
        {repair.rests.map((words) => (
          <p key={words} className="quiet">
            {words}
          </p>
        ))}
      </div>
      <div className="row">
        <WordButton aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
          {isOpen ? 'fold the lines' : `show its ${plural('line', lines.length)}`}
        </WordButton>
        <Link
          to="/cars/$carId/repairs/$repairId"
          params={{ carId, repairId: repair.id }}
          className="reaching"
        >
          open the repair
        </Link>
      </div>
      {isOpen && <EstimateLines view={view} lines={lines} />}
    </div>
  )
}

function figureWords(repair: EstimateRepairView): readonly string[] {
  const { points, agreed, baseline, band, first, took } = repair
  const three = `Estimated at ${hours(points.shortest)} at the shortest, most likely ${hours(points.likely)}, ${hours(points.longest)} at the longest; ${agreedWord(repair)} ${hours(agreed)}`
  const was = Math.abs(baseline - agreed) < 0.05 ? '.' : `, first ${hours(baseline)}.`
  return [
    `${three}${was}`,
    ...(first === null || band === null
      ? []
      : [`Before it was opened ${rangeWords(first)}; now ${rangeWords(band)}.`]),
    ...(took === null ? [] : [`It took ${hours(took)}.`]),
  ]
}
