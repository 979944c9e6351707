import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import type { PlanView } from '../../domain/views/plan-view-shapes.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { ComparisonTable } from './comparison-table.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { comparisonWords } from './plan-words.ts'

export type WhichPlan = 'in force' | 'newer'

interface Props {
  readonly which: WhichPlan
  readonly onWhich: (which: WhichPlan) => void
  /** The proposal that was left: not shown any more on this device until there is another one. */
  readonly left: string | null
  readonly onLeave: (planId: string | null) => void
}

/**
 * Which plan people were given, and what a newer one would change: take it or leave it. The bar is always there, so that
 * nothing moves when a newer plan comes.
 */
export function ProposalBar(props: Props) {
  const { view } = useShownPlan()
  const { proposal } = view
  return proposal === null || proposal.planId === props.left ? (
    <StandingPlan onLook={proposal === null ? null : () => props.onLeave(null)} />
  ) : (
    <Proposal {...props} proposal={proposal} />
  )
}

function StandingPlan({ onLook }: { readonly onLook: (() => void) | null }) {
  const { inForce, state } = useShownPlan().view
  const when = useWhen()
  return (
    <section className={styles.standing} aria-label="The plan in force">
      <p>
        {inForce !== null &&
          `This plan is in force: taken by ${inForce.takenBy}, ${when.dayAndTime(inForce.takenAt)}. `}
        {state === 'planning' && <span className="quiet">A newer one is being made.</span>}
      </p>
      {onLook !== null && <WordButton onClick={onLook}>look at the newer plan again</WordButton>}
    </section>
  )
}

function Proposal({
  which,
  onWhich,
  onLeave,
  proposal,
}: Props & { readonly proposal: NonNullable<PlanView['proposal']> }) {
  const { view } = useShownPlan()
  const [isOpen, setIsOpen] = useState(false)
  const isFirst = view.inForce === null
  return (
    <section className={styles.proposal} aria-label="A newer plan">
      <div className="spread">
        <ProposalWords proposal={proposal} isFirst={isFirst} />
        <div className="row">
          {!isFirst && (
            <>
              <Button
                onClick={() => onWhich(which === 'newer' ? 'in force' : 'newer')}
                aria-pressed={which === 'newer'}
              >
                {which === 'newer' ? 'Show the one in force' : 'Show it'}
              </Button>
              <Button onClick={() => setIsOpen(!isOpen)} aria-expanded={isOpen}>
                {isOpen ? 'Close the comparison' : 'Compare'}
              </Button>
            </>
          )}
          <TakeIt planId={proposal.planId} />
          {!isFirst && <Button onClick={() => onLeave(proposal.planId)}>Leave it</Button>}
        </div>
      </div>
      {isOpen && <ComparisonTable comparison={proposal} before="in force" after="in the newer plan" />}
    </section>
  )
}

function ProposalWords({
  proposal,
  isFirst,
}: {
  readonly proposal: NonNullable<PlanView['proposal']>
  readonly isFirst: boolean
}) {
  const when = useWhen()
  if (isFirst)
    return <p className="strong">The first plan is ready: once it is taken, people are given it.</p>
  return (
    <p>
      <span className="strong">A newer plan is ready: {comparisonWords(proposal, when)}.</span>{' '}
      <span className="quiet">
        {plural('piece', proposal.changes)} of work {proposal.changes === 1 ? 'changes' : 'change'},{' '}
        {plural('move', proposal.movesAfter)} instead of {proposal.movesBefore}.
      </span>
    </p>
  )
}

/** A plan that is still being bettered cannot be taken: it would be another one by the time it is. */
function TakeIt({ planId }: { readonly planId: NonNullable<PlanView['proposal']>['planId'] }) {
  const { view, canChange } = useShownPlan()
  const command = useCommand()
  if (!canChange) return null
  const isPlanning = view.state === 'planning'
  const take = () => {
    if (!isPlanning) void command.send({ kind: 'takePlan', carId: null, payload: { planId } })
  }
  return (
    <>
      <Button kind="main" onClick={take} aria-disabled={isPlanning || command.isBusy}>
        Take it
      </Button>
      <RefusalNote refusal={command.refusal} />
    </>
  )
}
