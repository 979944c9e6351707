import { useState } from 'react'
import type { AttachmentId } from '../../domain/ids.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { PhotoChoice } from '../parts/photos/photo-choice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { gatePhoto } from '../parts/photos/photo-aim.ts'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import { photoWork } from './asks.ts'
import { useRepair } from './repair-context.ts'

/** Past its window the surface is cleaned or abraded again; a photo shows it. */
export function PreparedDialog({ onClose }: { readonly onClose: () => void }) {
  const { view, photos } = useRepair()
  const command = useCommand()
  const gate = view.next?.gate
  const shown = view.photos.filter(({ serves }) => serves.some(({ shows }) => shows === 'prepared'))
  const [chosen, setChosen] = useState<AttachmentId | null>(null)
  const attachmentId = chosen ?? shown[0]?.attachmentId ?? null
  if (gate === undefined) return null

  const submit = async () => {
    if (attachmentId === null) return
    const payload = { repairId: view.repair.id, gate, attachmentId }
    if (isSettled(await command.send({ kind: 'prepareSurface', carId: view.car.carId, payload }))) onClose()
  }
  return (
    <Dialog title={`Surface prepared again for ${gate}`} isOpen onClose={onClose}>
      <div className="form">
        <p>Clean or abrade it as the product’s data sheet says, then photograph the prepared surface.</p>
        <Button
          onClick={() => photos.take({ serves: [gatePhoto(view.repair.id, gate, 'prepared')], caption: '' })}
        >
          Take a photo of it
        </Button>
        <TakenStrip carId={view.car.carId} repair={photoWork(view)} />
        <PhotoChoice
          label="Which photo shows it"
          photos={shown}
          chosen={attachmentId === null ? [] : [attachmentId]}
          onChange={(ids) => setChosen(ids.at(-1) ?? null)}
        />
        <RefusalNote refusal={command.refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" aria-disabled={attachmentId === null} onClick={() => void submit()}>
            It is prepared
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
