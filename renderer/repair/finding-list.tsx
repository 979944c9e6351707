import type { FindingView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { PhotoGrid } from '../parts/photos/photo-grid.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** Damage seen on the layers, with photos and what it needs. */
export function FindingList() {
  const { view, open } = useRepair()
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Findings{view.findings.length > 0 && ` ${view.findings.length}`}</h3>
        <Button onClick={() => open({ kind: 'finding' })}>Add a finding</Button>
      </div>
      {view.findings.length === 0 && <p className="quiet">Nothing found yet beyond what was estimated.</p>}
      <ul className="lines">
        {view.findings.map((finding) => (
          <li key={finding.id}>
            <Finding finding={finding} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function Finding({ finding }: { readonly finding: FindingView }) {
  const when = useWhen()
  const { view } = useRepair()
  const { kind, grade, layer, extent, needs, at, by, photos } = finding
  return (
    <div className={`stack-tight ${styles.finding}`}>
      <p>
        <span className="strong">
          {kind}, {grade}
        </span>
        {layer !== null && ` on the ${layer}`}: <span className="pre">{extent}</span>
        <br />
        <span className="pre">It needs: {needs}</span>
        <br />
        <span className="small quiet">
          {when.dayAndTime(at)}, {by}
        </span>
      </p>
      {photos.length > 0 && <PhotoGrid photos={photos} carId={view.car.carId} />}
    </div>
  )
}
