import { useState } from 'react'
import { fixed, mm } from '../../domain/text/words.ts'
import type { FitGroupView } from '../../domain/views/shared-views.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { FitGroupDialog } from './fit-group-dialog.tsx'

type Doing = { readonly kind: 'add' } | { readonly kind: 'change' | 'dissolve'; readonly group: FitGroupView }

/** The openings of the car: what is offered up together, and how the last time went. */
export function FitGroupList({ view }: { readonly view: CarView }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const close = () => setDoing(null)
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Fit groups</h3>
        <Button onClick={() => setDoing({ kind: 'add' })}>Add a fit group</Button>
      </div>
      {view.fitGroups.length === 0 && (
        <p className="quiet">
          The repairs and hung parts around one opening, like a door or a boot lid, that must fit together.
        </p>
      )}
      <ul className="lines">
        {view.fitGroups.map((group) => (
          <li key={group.id}>
            <FitGroup group={group} />
            <div className="button-row">
              <WordButton onClick={() => setDoing({ kind: 'change', group })}>change {group.name}</WordButton>
              <WordButton onClick={() => setDoing({ kind: 'dissolve', group })}>dissolve</WordButton>
            </div>
          </li>
        ))}
      </ul>
      {doing?.kind === 'add' && <FitGroupDialog view={view} group={null} onClose={close} />}
      {doing?.kind === 'change' && <FitGroupDialog view={view} group={doing.group} onClose={close} />}
      {doing?.kind === 'dissolve' && (
        <ReasonDialog
          title={`Dissolve ${doing.group.name}`}
          submit="Dissolve it"
          onClose={close}
          label="Reason"
          act={(reason) => ({
            kind: 'dissolveFitGroup',
            carId: view.header.carId,
            payload: { groupId: doing.group.id, reason },
          })}
        >
          <p>Its repairs need no fit-up together any more. Its fit-ups stay in the record.</p>
        </ReasonDialog>
      )}
    </section>
  )
}

function FitGroup({ group }: { readonly group: FitGroupView }) {
  const when = useWhen()
  const last = group.fitUps[0]
  return (
    <div className="stack-tight">
      <div className="spread">
        <span className="strong">{group.name}</span>
        <span className={group.good ? 'is-passed' : 'is-accent'}>{stateWords(group)}</span>
      </div>
      <ul className="small">
        {group.members.map((member) => (
          <li key={member.id}>
            {member.ready ? '✓' : '–'} {member.name}
            {!member.ready && <span className="quiet">: {member.why}</span>}
          </li>
        ))}
        {group.hungParts.map((part) => (
          <li key={part} className="quiet">
            with the {part}
          </li>
        ))}
      </ul>
      <ul className="small">
        {group.edges.map((edge) => (
          <li key={edge.edgeId} className="spread">
            <span>
              {edge.name}{' '}
              <span className="quiet">
                {mm(edge.nominalMm)} ± {mm(edge.toleranceMm)}
              </span>
            </span>
            <span className={edge.last === null ? 'quiet' : edge.last.inside ? 'is-passed' : 'is-accent'}>
              {edge.last === null ? 'not read yet' : gapWords(edge.last)}
            </span>
          </li>
        ))}
      </ul>
      {last !== undefined && (
        <p className="small quiet">
          {when.day(last.at)}, {last.by}: {last.words}
        </p>
      )}
    </div>
  )
}

/** '4.1 to 4.4 mm, inside' */
function gapWords({ minMm, maxMm, inside }: NonNullable<FitGroupView['edges'][number]['last']>): string {
  return `${fixed(minMm, 1)} to ${mm(maxMm)}, ${inside ? 'inside' : 'outside'}`
}

function stateWords({ good, stale, fitUps }: FitGroupView): string {
  if (good) return '✓ fits'
  if (stale) return 'fit-up no longer counts'
  return fitUps.length === 0 ? 'not offered up yet' : 'does not fit yet'
}
