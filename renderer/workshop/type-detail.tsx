import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { fixed } from '../../domain/text/words.ts'
import { zoneWords } from '../../domain/views/work-words.ts'
import { Button } from '../parts/form/button.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { GateFigure } from './gate-figure.tsx'
import { copyOfType, type TypeStart } from './new-type.ts'
import { planHours, planSection, weldWords } from './plan-words.ts'
import { TypeDialog } from './type-dialog.tsx'
import { TypeUse } from './type-use.tsx'
import styles from './types.module.css'
import type { RepairTypeView, Workshop } from './workshop-shapes.ts'

/** One type whole: its section, its gates, its welds and parts. */
export function TypeDetail({
  view,
  type,
  types,
}: {
  readonly view: Workshop
  readonly type: RepairTypeView
  readonly types: readonly RepairTypeView[]
}) {
  const [editing, setEditing] = useState<TypeStart | null>(null)
  const [isRetiring, setIsRetiring] = useState(false)
  const { plan } = type
  return (
    <section className={styles.detail}>
      <Link
        to="/workshop"
        search={{ sheet: 'types' }}
        className={styles.back}
        activeOptions={{ exact: true }}
      >
        ← all repair types
      </Link>
      <div className="spread">
        <div>
          <h2>{plan.name}</h2>
          <p className="small quiet">
            {zoneWords(plan.zone)}; {plan.outer ? 'outer panel' : 'covered'}
            {plan.loadBearing && '; load-bearing'}
            {plan.on === 'part' && '; on a part off the car'}
            {plan.primedFirst && '; primed before sealed'}; version {type.version}
            {type.retired && ', retired'}
          </p>
        </div>
        <p>
          <span className="figure">{fixed(planHours(plan), 1)} h</span>
          <br />
          <span className="small quiet">likely, all gates</span>
        </p>
      </div>
      <div className={styles.top}>
        <Section section={planSection(plan)} width={420} />
        <Extras plan={plan} />
      </div>
      <GateFigure plan={plan} />
      <div className="button-row">
        <Button kind="main" onClick={() => setEditing({ typeId: type.id, plan, isNew: false })}>
          Change it
        </Button>
        <Menu
          label="More"
          entries={[
            {
              id: 'copy',
              words: 'Copy as a new type',
              onChoose: () => setEditing(copyOfType(plan)),
            },
            {
              id: 'retire',
              words: 'Retire it',
              isDisabled: type.retired,
              onChoose: () => setIsRetiring(true),
            },
          ]}
        />
      </div>
      <TypeUse type={type} />
      {editing !== null && (
        <TypeDialog view={view} types={types} start={editing} onClose={() => setEditing(null)} />
      )}
      {isRetiring && <RetireDialog type={type} onClose={() => setIsRetiring(false)} />}
    </section>
  )
}

function Extras({ plan }: { readonly plan: RepairTypeView['plan'] }) {
  return (
    <div className="stack">
      <div>
        <h3>Welds</h3>
        {plan.welds.length === 0 && <p className="quiet">none planned</p>}
        <ul className="lines">
          {plan.welds.map((joint) => (
            <li key={joint.jointId} className="line">
              <span>{joint.name}</span>
              <span className="number">{weldWords(joint)}</span>
            </li>
          ))}
        </ul>
      </div>
      <div>
        <h3>Parts</h3>
        {plan.parts.length === 0 && <p className="quiet">none needed</p>}
        <ul className="lines">
          {plan.parts.map((part) => (
            <li key={part.partId} className="line">
              <span>{part.name}</span>
              <span className="small quiet">for {part.gate}</span>
            </li>
          ))}
        </ul>
      </div>
    </div>
  )
}

function RetireDialog({ type, onClose }: { readonly type: RepairTypeView; readonly onClose: () => void }) {
  return (
    <ReasonDialog
      title={`Retire ${type.plan.name}`}
      label="Why"
      submit="Retire it"
      onClose={onClose}
      act={(reason) => ({ kind: 'retireType', carId: null, payload: { typeId: type.id, reason } })}
    >
      <p className="quiet">
        It is offered for new repairs no more. Repairs that came from it keep their plan, and changing it
        brings it back.
      </p>
    </ReasonDialog>
  )
}
