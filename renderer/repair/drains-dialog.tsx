import { useState } from 'react'
import type { ReadingId } from '../../domain/ids.ts'
import { newId } from '../parts/form/new-id.ts'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { useRepair } from './repair-context.ts'

/** The drain check: a deliberate tick, before the seams are signed for. */
export function DrainsDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const [readingId] = useState(() => newId<ReadingId>())
  return (
    <ReasonDialog
      title="Is every drain path open?"
      label="Note (may stay empty)"
      submit="Every drain is open"
      isOptional
      onClose={onClose}
      act={(note) => ({
        kind: 'checkDrains',
        carId: view.car.carId,
        payload: { readingId, repairIds: [view.repair.id], note },
      })}
    >
      <p>
        Pour a little water or push a soft wire through each drain of this cavity. A drain that is sealed shut
        rusts the new metal from the inside.
      </p>
    </ReasonDialog>
  )
}
