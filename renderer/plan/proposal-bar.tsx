import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import type { PlanView } from '../../domain/views/plan-view-shapes.ts'
import { Button } from '../parts/button.tsx'
import { RefusalNote } from '../parts/notice.tsx'
import { useCommand } from '../parts/use-command.ts'
import { useWhen } from '../parts/when.tsx'
import { ComparisonTable } from './comparison-table.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { comparisonWords } from './plan-words.ts'

export type WhichPlan = 'in force' | 'newer'

/** A newer plan is proposed: what it changes, and take it or leave it. The one in force stays until then. */
export function ProposalBar({
  which,
  left,
  onWhich,
  onLeave,
}: {
  readonly which: WhichPlan
  /** The proposal that was left. */
  readonly left: string | null
  readonly onWhich: (which: WhichPlan) => void
  /** Not shown any more on this device until there is another one. */
  readonly onLeave: (planId: string) => void
}) {
  const { view, canChange } = useShownPlan()
  const when = useWhen()
  const command = useCommand()
  const [isOpen, setIsOpen] = useState(false)
  const { proposal, inForce } = view
  if (proposal === null || proposal.planId === left) return null
  const { planId } = proposal
  return (
    <section className={styles.proposal} aria-label="A newer plan">
      <div className="spread">
        <p>
          <span className="strong">
            {inForce === null
              ? firstWords(view)
              : `A newer plan is ready: ${comparisonWords(proposal, when)}.`}
          </span>{' '}
          {inForce !== null && (
            <span className="quiet">
              {plural('piece', proposal.changes)} of work change, {plural('move', proposal.movesAfter)}{' '}
              instead of {proposal.movesBefore}.
            </span>
          )}
        </p>
        <div className="row">
          {inForce !== null && (
            <Button
              onClick={() => onWhich(which === 'newer' ? 'in force' : 'newer')}
              aria-pressed={which === 'newer'}
            >
              {which === 'newer' ? 'Show the one in force' : 'Show it'}
            </Button>
          )}
          {inForce !== null && (
            <Button onClick={() => setIsOpen(!isOpen)} aria-expanded={isOpen}>
              {isOpen ? 'Close the comparison' : 'Compare'}
            </Button>
          )}
          {canChange && (
            <Button
              kind="main"
              onClick={() => void command.send({ kind: 'takePlan', carId: null, payload: { planId } })}
            >
              Take it
            </Button>
          )}
          {inForce !== null && <Button onClick={() => onLeave(planId)}>Leave it</Button>}
        </div>
      </div>
      <RefusalNote refusal={command.refusal} />
      {isOpen && <ComparisonTable comparison={proposal} before="in force" after="in the newer plan" />}
    </section>
  )
}

const firstWords = (view: PlanView): string =>
  view.cars.length === 0
    ? 'The first plan is ready.'
    : 'The first plan is ready: once it is taken, people are given it.'
