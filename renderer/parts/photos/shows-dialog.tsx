import { useState } from 'react'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { RefusalNote } from '../form/notice.tsx'
import type { Refusal } from '../../../domain/refusal.ts'
import type { GatePhoto } from './photo-aim.ts'
import type { ShownLayers } from './shown-words.ts'
import { ShowsFields } from './shows-fields.tsx'

/** Puts right what one photo shows, or all that were just taken of the same repair. */
export function ShowsDialog({
  value,
  layers,
  others,
  refusal,
  onChoose,
  onClose,
}: {
  readonly value: GatePhoto
  readonly layers: ShownLayers
  /** How many more there are. */
  readonly others: number
  readonly refusal: Refusal | null
  readonly onChoose: (value: GatePhoto, of: 'this' | 'all') => void
  readonly onClose: () => void
}) {
  const [chosen, setChosen] = useState(value)
  return (
    <Dialog title="What the photo shows" isOpen onClose={onClose}>
      <div className="form">
        <ShowsFields layers={layers} value={chosen} onChange={setChosen} />
        <RefusalNote refusal={refusal} />
        <div className="button-row end">
          {others > 0 && <Button onClick={() => onChoose(chosen, 'all')}>All {others + 1} just taken</Button>}
          <Button kind="main" onClick={() => onChoose(chosen, 'this')}>
            {others > 0 ? 'This one only' : 'It shows this'}
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
