import { useState } from 'react'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/button.tsx'
import { EmptyState } from '../parts/notice.tsx'
import { VariationCard } from '../parts/variation-card.tsx'
import { RaiseVariationDialog } from './raise-variation-dialog.tsx'

/** What the payers of this car have to decide or have decided. */
export function DecisionsSheet({ view }: { readonly view: CarView }) {
  const [isRaising, setIsRaising] = useState(false)
  return (
    <div className="stack">
      <div>
        <Button kind={view.variations.length === 0 ? 'main' : 'plain'} onClick={() => setIsRaising(true)}>
          Raise a variation
        </Button>
      </div>
      {view.variations.length === 0 && (
        <EmptyState title="Nothing to decide">
          Extra or less work is put to its payer as a variation, with the finding, its photos and the hours;
          work beyond what is authorised waits until it is accepted.
        </EmptyState>
      )}
      {view.variations.map((variation) => (
        <VariationCard key={variation.id} variation={variation} />
      ))}
      {isRaising && <RaiseVariationDialog view={view} onClose={() => setIsRaising(false)} />}
    </div>
  )
}
