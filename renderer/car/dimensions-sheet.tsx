import { useState } from 'react'
import { mm } from '../../domain/text/words.ts'
import type { FitGroupView } from '../../domain/views/shared-views.ts'
import { sidesCompared } from '../../domain/views/sides-compared.ts'
import type { CarView, DimensionView } from '../../domain/views/view-shapes.ts'
import { AddDimensionDialog } from '../parts/measure/add-dimension-dialog.tsx'
import { Button, WordButton } from '../parts/form/button.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { DimensionDialog } from '../parts/measure/dimension-dialog.tsx'
import { FitUpDialog } from '../parts/measure/fit-up-dialog.tsx'
import { standingWords } from '../parts/measure/fixtures.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './dimensions.module.css'
import { DriftStrip } from './drift-strip.tsx'
import { TargetDialog } from './target-dialog.tsx'

type Doing =
  | { readonly kind: 'add' }
  | { readonly kind: 'read' | 'target'; readonly dimension: DimensionView }
  | { readonly kind: 'fit-up'; readonly group: FitGroupView }

/** Reference dimensions and gaps: what was read when, against target and limit. */
export function DimensionsSheet({ view }: { readonly view: CarView }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const close = () => setDoing(null)
  const { carId, fixture } = view.header
  return (
    <div className={`stack ${styles.sheet}`}>
      <section className="stack-tight">
        <div className="spread">
          <h2>Reference dimensions</h2>
          <Button onClick={() => setDoing({ kind: 'add' })}>Add a dimension</Button>
        </div>
        {view.dimensions.length === 0 && (
          <p className="quiet">
            Measure before the first cut: the diagonals of the door openings and a few datum distances.
            Without them nobody can say later whether the shell has moved.
          </p>
        )}
        <ul className="lines">
          {view.dimensions.map((dimension) => (
            <li key={dimension.id} className={styles.dimension}>
              <Dimension dimension={dimension} />
              <div className="button-row">
                <Button onClick={() => setDoing({ kind: 'read', dimension })}>Read it</Button>
                <WordButton onClick={() => setDoing({ kind: 'target', dimension })}>
                  set another target
                </WordButton>
              </div>
            </li>
          ))}
        </ul>
        <p className="small quiet">
          Only like is compared with like: how the shell stood and whether doors hung are part of a reading.
          Drift counts from the target.
        </p>
      </section>
      <section className="stack-tight">
        <h2>Gaps</h2>
        {view.fitGroups.length === 0 && (
          <p className="quiet">Gaps are read along the edges of a fit group; make one on the closing map.</p>
        )}
        {view.fitGroups.map((group) => (
          <Gaps key={group.id} group={group} onFitUp={() => setDoing({ kind: 'fit-up', group })} />
        ))}
        <Sides groups={view.fitGroups} />
      </section>
      {doing?.kind === 'add' && (
        <AddDimensionDialog carId={carId} side="left" stood={fixture} onClose={close} />
      )}
      {doing?.kind === 'read' && (
        <DimensionDialog carId={carId} dimension={doing.dimension} onClose={close} />
      )}
      {doing?.kind === 'target' && (
        <TargetDialog
          carId={carId}
          dimension={doing.dimension}
          revision={view.header.revision}
          onClose={close}
        />
      )}
      {doing?.kind === 'fit-up' && (
        <FitUpDialog carId={carId} group={doing.group} kind="dry" onClose={close} />
      )}
    </div>
  )
}

function Dimension({ dimension }: { readonly dimension: DimensionView }) {
  const when = useWhen()
  const last = dimension.readings[0]
  const { asFoundMm, targetMm, limitMm, asFoundStood, asFoundDoorsHung, targetReason } = dimension
  return (
    <>
      <div>
        <h3>{dimension.name}</h3>
        <p className="small quiet">
          target {mm(targetMm)} ± {mm(limitMm)}; as found {mm(asFoundMm)}, {standingWords[asFoundStood]}
          {asFoundDoorsHung ? ', doors hung' : ''}
          {targetReason !== null && `; target set: ${targetReason}`}
        </p>
        {last !== undefined && (
          <p className="small">
            {when.day(last.at)}, {last.by}: <span className="strong">{mm(last.mm)}</span>{' '}
            <span className={last.inside === null ? 'quiet' : last.inside ? 'is-passed' : 'is-accent'}>
              {driftWords(last)}
            </span>
          </p>
        )}
      </div>
      <DriftStrip dimension={dimension} />
    </>
  )
}

function driftWords({ driftMm, inside, stood }: DimensionView['readings'][number]): string {
  if (driftMm === null || inside === null) return `not comparable, ${standingWords[stood]}`
  return `${signed(driftMm)}, ${inside ? 'inside' : 'outside'}`
}

function signed(value: number): string {
  const sign = value > 0 ? '+' : value < 0 ? '−' : '±'
  return `${sign}${mm(Math.abs(value))}`
}

/** Left compared with right, for the edges that both sides have and that were read on both. */
function Sides({ groups }: { readonly groups: readonly FitGroupView[] }) {
  const sides = sidesCompared(groups)
  if (sides.length === 0) return null
  return (
    <section className="stack-tight">
      <h3>Left and right</h3>
      <ul className="small">
        {sides.map(({ name, words }) => (
          <li key={name}>
            {name}: {words}
          </li>
        ))}
      </ul>
    </section>
  )
}

function Gaps({ group, onFitUp }: { readonly group: FitGroupView; readonly onFitUp: () => void }) {
  const when = useWhen()
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>{group.name}</h3>
        <Button onClick={onFitUp}>Record a fit-up</Button>
      </div>
      <TableFrame label={`Gaps of ${group.name}`}>
        <table className="table">
          <thead>
            <tr>
              <th scope="col">edge</th>
              <th scope="col" className="number">
                asked
              </th>
              <th scope="col" className="number">
                least
              </th>
              <th scope="col" className="number">
                most
              </th>
              <th scope="col" className="number">
                mean
              </th>
              <th scope="col" className="number">
                taper
              </th>
              <th scope="col" className="number">
                flush
              </th>
              <th scope="col">
                <span className="hidden-word">judged</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {group.edges.map((edge) => (
              <tr key={edge.edgeId}>
                <th scope="row">{edge.name}</th>
                <td className="number">
                  {mm(edge.nominalMm)} ± {mm(edge.toleranceMm)}
                </td>
                {edge.last === null ? (
                  <td colSpan={6} className="quiet">
                    not read yet
                  </td>
                ) : (
                  <>
                    <td className="number">{mm(edge.last.minMm)}</td>
                    <td className="number">{mm(edge.last.maxMm)}</td>
                    <td className="number">{mm(edge.last.meanMm, 2)}</td>
                    <td className="number">{mm(edge.last.taperMm)}</td>
                    <td className="number">{signed(edge.last.flushMm)}</td>
                    <td className={edge.last.inside ? 'is-passed' : 'is-accent'}>
                      {edge.last.inside ? '✓ inside' : 'outside'}
                    </td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <ul className="small quiet">
        {group.fitUps.map((fitUp) => (
          <li key={fitUp.at}>
            {when.day(fitUp.at)}, {fitUp.by}: {fitUp.words}
            {fitUp.stale && ' (counts no longer)'}
          </li>
        ))}
      </ul>
    </section>
  )
}
