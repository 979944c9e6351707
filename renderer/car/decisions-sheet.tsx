import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { RepairId } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { EmptyState, Notice } from '../parts/form/notice.tsx'
import { VariationCard } from '../parts/variation/variation-card.tsx'
import { RaiseVariationDialog } from './raise-variation-dialog.tsx'

/** What the payers of this car have to decide or have decided, and what goes beyond what they have agreed to. */
export function DecisionsSheet({ view }: { readonly view: CarView }) {
  const { carId } = view.header
  const { data: beyond = [], isLoading } = useQuery(api.beyondAgreed.queryOptions({ carId }))
  const [raising, setRaising] = useState<{ readonly on: RepairId | null } | null>(null)
  if (isLoading) return null
  return (
    <div className="stack">
      {beyond.map(({ repairId, name, words }) => (
        <Notice key={repairId} kind="held">
          <div className="spread">
            <p>
              <span className="strong">{name}:</span> {words}
            </p>
            <Button kind="main" onClick={() => setRaising({ on: repairId })}>
              Draft a variation
              <span className="hidden-word"> on {name}</span>
            </Button>
          </div>
        </Notice>
      ))}
      <div>
        <Button
          kind={view.variations.length + beyond.length === 0 ? 'main' : 'plain'}
          onClick={() => setRaising({ on: null })}
        >
          Raise a variation
        </Button>
      </div>
      {view.variations.length + beyond.length === 0 && (
        <EmptyState title="Nothing to decide">
          Extra or less work is put to its payer as a variation, with the finding, its photos and the hours;
          work beyond what is authorised waits until it is accepted.
        </EmptyState>
      )}
      {view.variations.map((variation) => (
        <VariationCard key={variation.id} variation={variation} />
      ))}
      {raising !== null && (
        <RaiseVariationDialog view={view} on={raising.on} onClose={() => setRaising(null)} />
      )}
    </div>
  )
}
