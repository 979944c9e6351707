import { useState } from 'react'
import type { RepairId } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { SelectInput } from '../parts/form/inputs.tsx'
import { RaiseVariationForm } from '../parts/variation/raise-variation-form.tsx'
import { repairChoices } from '../parts/car/repair-choices.ts'

/** Extra or less work on one repair, with what was found and its photos, put to its payer. */
export function RaiseVariationDialog({
  view,
  on,
  onClose,
}: {
  readonly view: CarView
  /** The repair that it is about; null lets the manager choose. */
  readonly on: RepairId | null
  readonly onClose: () => void
}) {
  const [repairId, setRepairId] = useState(on)
  return (
    <Dialog title="Raise a variation" isOpen onClose={onClose} size="wide">
      <SelectInput
        label="On which repair"
        none="choose a repair"
        choices={repairChoices(view.repairs)}
        value={repairId}
        onChange={setRepairId}
      />
      {repairId !== null && (
        <RaiseVariationForm key={repairId} carId={view.header.carId} repairId={repairId} onClose={onClose} />
      )}
    </Dialog>
  )
}
