import type { Gate } from '../../domain/gates.ts'
import { fixed } from '../../domain/text/words.ts'
import type { FitGroupView } from '../../domain/views/shared-views.ts'
import { AskStanding } from './ask-line.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** At trial-fitted: each fit group that is offered up, edge by edge. */
export function FitLines({ gate }: { readonly gate: Gate }) {
  const { view } = useRepair()
  if (gate !== 'trial-fitted') return null
  return view.fitGroups.map((group) => <FitGroupLines key={group.id} group={group} />)
}

function FitGroupLines({ group }: { readonly group: FitGroupView }) {
  const { open } = useRepair()
  const read = () => open({ kind: 'fit-up', groupId: group.id })
  const last = group.fitUps.find(({ kind, stale }) => kind === 'full' && !stale)
  return (
    <>
      <li>
        <button type="button" className={styles.ask} onClick={read}>
          <span>{group.name} offered up whole</span>
          <AskStanding
            isMet={group.good}
            have={last?.words ?? (group.stale ? 'stale: a member was reopened' : 'not yet')}
            todo="offer up"
          />
        </button>
      </li>
      {group.edges.map((edge) => (
        <li key={edge.edgeId}>
          <button type="button" className={styles.ask} onClick={read}>
            <span>{edge.name}</span>
            <AskStanding
              isMet={edge.last?.inside === true}
              have={
                edge.last === null
                  ? 'not read yet'
                  : `${fixed(edge.last.minMm, 1)} to ${fixed(edge.last.maxMm, 1)} mm`
              }
              todo={edge.last === null ? 'read' : 'outside'}
            />
          </button>
        </li>
      ))}
    </>
  )
}
