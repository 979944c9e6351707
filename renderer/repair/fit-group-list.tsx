import { Link } from '@tanstack/react-router'
import type { FitGroupView } from '../../domain/views/shared-views.ts'
import { fixed } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** What this repair must fit together with: members, edges and every offering-up so far. */
export function FitGroupList() {
  const { view } = useRepair()
  return view.fitGroups.map((group) => <FitGroup key={group.id} group={group} />)
}

function FitGroup({ group }: { readonly group: FitGroupView }) {
  const { view, open } = useRepair()
  const when = useWhen()
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Fits with: {group.name}</h3>
        <Button onClick={() => open({ kind: 'fit-up', groupId: group.id })}>Offer it up</Button>
      </div>
      <ul className="lines">
        {group.members.map(({ id, name, ready, why }) => (
          <li key={id} className="line">
            <span>
              <MarkSign mark={ready ? 'passed' : 'held'} />{' '}
              {id === view.repair.id ? (
                'this repair'
              ) : (
                <Link
                  to="/cars/$carId/repairs/$repairId"
                  params={{ carId: view.car.carId, repairId: id }}
                  className={styles.link}
                >
                  {name}
                </Link>
              )}
            </span>
            <span className="small quiet">{why}</span>
          </li>
        ))}
        {group.hungParts.map((name) => (
          <li key={name} className="line">
            {name} <span className="small quiet">hung part</span>
          </li>
        ))}
        {group.edges.map(({ edgeId, name, nominalMm, toleranceMm, last }) => (
          <li key={edgeId} className="line">
            <span>
              {name}{' '}
              <span className="small quiet unbroken">
                {fixed(nominalMm, 1)} ± {fixed(toleranceMm, 1)} mm
              </span>
            </span>
            <span className={last?.inside ? 'is-passed' : last ? 'is-accent' : 'quiet'}>
              {last === null
                ? 'not read yet'
                : `${fixed(last.minMm, 1)} to ${fixed(last.maxMm, 1)} mm, ${last.words}`}
            </span>
          </li>
        ))}
      </ul>
      {group.fitUps.length > 0 && (
        <ul className="lines small">
          {group.fitUps.map(({ at, by, kind, stale, words }) => (
            <li key={at} className="line">
              <span>
                {when.dayAndTime(at)}, {by}: {kind === 'full' ? 'whole group' : kind}
              </span>
              <span>
                {words}
                {stale && ', stale'}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
