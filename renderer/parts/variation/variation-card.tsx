import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { RepairId } from '../../../domain/ids.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import type { Answer } from './answer-values.ts'
import { Button, WordButton } from '../form/button.tsx'
import { CloseAsFoundDialog } from '../gates/close-as-found-dialog.tsx'
import { DecideVariationDialog } from './decide-variation-dialog.tsx'
import { ExpectDecisionDialog } from './expect-decision-dialog.tsx'
import { PhotoGrid } from '../photos/photo-grid.tsx'
import { PrintVariation } from './print-variation.tsx'
import { SettleDeclinedDialog } from './settle-declined-dialog.tsx'
import { HoursInAll, VariationLines } from './variation-lines.tsx'
import { useWhen } from '../frame/when.tsx'

type Doing =
  | { readonly kind: 'answer'; readonly answer: Answer }
  | { readonly kind: 'expect' | 'settle' }
  | { readonly kind: 'close'; readonly repairId: RepairId }

/** A variation with its reasons, findings and photos, and what may be done about it. */
export function VariationCard({
  variation,
  isCarNamed = false,
}: {
  readonly variation: VariationView
  /** Names the car and its owner: where variations of several cars stand together. */
  readonly isCarNamed?: boolean
}) {
  const when = useWhen()
  const [doing, setDoing] = useState<Doing | null>(null)
  const { carId, status } = variation
  const close = () => setDoing(null)
  return (
    <article className="variation">
      <div className="spread">
        <h3>{variation.title}</h3>
        <HoursInAll variation={variation} />
      </div>
      <p className="small">
        {isCarNamed && (
          <>
            <Link to="/cars/$carId" params={{ carId }} search={{ sheet: 'decisions' }} className="reaching">
              {variation.carName}
            </Link>
            , {variation.owner};{' '}
          </>
        )}
        <span className={status === 'raised' ? 'is-accent strong' : 'strong'}>{stateWords(variation)}</span>
        <span className="quiet">
          {' '}
          raised {when.day(variation.raised)} by {variation.raisedBy}
          {status !== 'raised' && `, for the ${variation.payer}`}
        </span>
      </p>
      <p className="pre">{variation.why}</p>
      {variation.ifNot !== '' && (
        <p className="pre">
          <span className="strong">If not:</span> {variation.ifNot}
        </p>
      )}
      <VariationLines variation={variation} />
      {variation.findings.map((finding) => (
        <p key={finding.id} className="small">
          <span className="strong">
            {finding.layer ?? 'the repair'}: {finding.kind}, {finding.grade}
          </span>{' '}
          {finding.extent}; needs {finding.needs}
        </p>
      ))}
      {variation.photos.length > 0 && <PhotoGrid photos={variation.photos} />}
      <Answer variation={variation} />
      {status === 'raised' && (
        <div className="button-row">
          <Button kind="main" onClick={() => setDoing({ kind: 'answer', answer: 'accepted' })}>
            Accepted
          </Button>
          <Button onClick={() => setDoing({ kind: 'answer', answer: 'changed' })}>With changes</Button>
          <Button onClick={() => setDoing({ kind: 'answer', answer: 'declined' })}>Declined</Button>
          <Expected variation={variation} onSay={() => setDoing({ kind: 'expect' })} />
        </div>
      )}
      {(status === 'declined' || status === 'stopped') && !variation.closedAsFound && (
        <div className="button-row">
          <Button onClick={() => setDoing({ kind: 'settle' })}>What happens now</Button>
          <CloseButtons variation={variation} onClose={(repairId) => setDoing({ kind: 'close', repairId })} />
        </div>
      )}
      <PrintVariation variation={variation} />
      {doing?.kind === 'answer' && (
        <DecideVariationDialog variation={variation} answer={doing.answer} onClose={close} />
      )}
      {doing?.kind === 'expect' && <ExpectDecisionDialog variation={variation} onClose={close} />}
      {doing?.kind === 'settle' && <SettleDeclinedDialog variation={variation} onClose={close} />}
      {doing?.kind === 'close' && (
        <CloseAsFoundDialog
          carId={carId}
          repairId={doing.repairId}
          variationId={variation.id}
          onClose={close}
        />
      )}
    </article>
  )
}

/** One button for each repair that the variation is about: closed as found is said of a repair. */
function CloseButtons({
  variation,
  onClose,
}: {
  readonly variation: VariationView
  readonly onClose: (repairId: RepairId) => void
}) {
  const car = useQuery(api.car.queryOptions({ carId: variation.carId }))
  const ids = [...new Set(variation.lines.flatMap(({ repairId }) => (repairId === null ? [] : [repairId])))]
  return ids.map((id) => {
    const repair = car.data?.repairs.find((each) => each.id === id)
    return (
      repair !== undefined &&
      !repair.finished && (
        <Button key={id} onClick={() => onClose(id)}>
          Close {repair.name} as found
        </Button>
      )
    )
  })
}

/** The day on which the answer is expected, and whether it has gone by. */
function Expected({
  variation: { expected },
  onSay,
}: {
  readonly variation: VariationView
  readonly onSay: () => void
}) {
  const when = useWhen()
  if (expected === null) return <WordButton onClick={onSay}>answer expected on …</WordButton>
  const isOver = expected < when.today
  return (
    <span className={isOver ? 'is-accent' : 'quiet'}>
      answer {isOver ? 'was expected' : 'expected'} {when.day(expected)}{' '}
      <WordButton onClick={onSay}>change the day</WordButton>
    </span>
  )
}

function Answer({ variation }: { readonly variation: VariationView }) {
  const when = useWhen()
  const { decided, decidedBy, decidedHow, decidedNote, settledReason } = variation
  if (decided === null) return null
  return (
    <p className="small quiet">
      Answered {when.dayAndTime(decided)} by {decidedHow}, recorded by {decidedBy}
      {decidedNote !== '' && `: ${decidedNote}`}
      {settledReason !== '' && `; then: ${settledReason}`}
    </p>
  )
}

function stateWords({ status, closedAsFound, payer, changed }: VariationView): string {
  if (closedAsFound) return 'closed as found;'
  switch (status) {
    case 'raised':
      return `waits for the ${payer};`
    case 'accepted':
      return changed ? 'accepted with changes;' : 'accepted;'
    case 'declined':
      return 'declined, not settled yet;'
    case 'workshop pays':
      return 'declined, the workshop pays;'
    case 'less work':
      return 'declined, less work;'
    case 'stopped':
      return 'declined, stopped;'
  }
}
