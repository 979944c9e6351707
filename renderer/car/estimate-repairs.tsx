import { useMemo, useState } from 'react'
import { drawHoursBand, drawHoursRuler } from '../../domain/drawing/hours-band-drawing.ts'
import type { EstimateRepairView, EstimateView } from '../../domain/views/estimate-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import { EstimateRepair } from './estimate-repair.tsx'
import styles from './estimate.module.css'

/** Every repair as a band on one scale of hours; each unfolds to what it hides. */
export function EstimateRepairs({
  view,
  estimate: { repairs, scale },
}: {
  readonly view: CarView
  readonly estimate: EstimateView
}) {
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set())
  const { ref, width } = useWidth<HTMLDivElement>()
  const ruler = useMemo(() => drawHoursRuler({ width, scale }), [width, scale])
  const toggle = (id: string) => setOpen((now) => now.symmetricDifference(new Set([id])))
  return (
    <section className="stack-tight">
      <h3>Repairs</h3>
      <p className="small quiet">
        Hatched: from what a repair stays at or under half the time to what it stays at or under four times in
        five. Mark from above: proposed or agreed. Dashed bracket: before it was opened. Diamond: what it
        took.
      </p>
      <div className={styles.row} aria-hidden>
        <span />
        <div ref={ref}>{width > 0 && scale > 0 && <DrawingView drawing={ruler} isDecoration />}</div>
      </div>
      <ul className="lines">
        {repairs.map((repair) => (
          <li key={repair.id}>
            <div className={styles.row}>
              <button
                type="button"
                className={styles.name}
                aria-expanded={open.has(repair.id)}
                onClick={() => toggle(repair.id)}
              >
                <span className={styles.title}>{repair.name}</span>
                <span className="small quiet">{standsWords(repair)}</span>
              </button>
              {width > 0 && <RepairBand repair={repair} width={width} scale={scale} />}
            </div>
            {open.has(repair.id) && <EstimateRepair view={view} repair={repair} />}
          </li>
        ))}
      </ul>
    </section>
  )
}

function RepairBand({
  repair: { agreed, isAccepted, band, first, took, problem },
  width,
  scale,
}: {
  readonly repair: EstimateRepairView
  readonly width: number
  readonly scale: number
}) {
  const drawing = useMemo(
    () =>
      drawHoursBand({ agreed: agreed > 0 ? agreed : null, isAccepted, band, first, took }, { width, scale }),
    [agreed, isAccepted, band, first, took, width, scale],
  )
  return problem === null ? <DrawingView drawing={drawing} /> : <p className="is-accent">{problem}</p>
}

/** 'right rear; before opening, pitted from outside' */
function standsWords({ zone, state, outside }: EstimateRepairView): string {
  const seen = outside === null ? 'not looked at yet' : `${outside.grade} from outside`
  return state === 'before opening' ? `${zone}; before opening, ${seen}` : `${zone}; ${state}`
}
