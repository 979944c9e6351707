import { useState } from 'react'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextInput } from '../parts/form/inputs.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { gatePhoto } from '../parts/photos/photo-aim.ts'
import { ShowsFields } from '../parts/photos/shows-fields.tsx'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import { photoWork } from './asks.ts'
import { useRepair } from './repair-context.ts'

/** Photos with what they show said first: gate, before or after, which layer, and a caption. */
export function PhotosDialog({ onClose }: { readonly onClose: () => void }) {
  const { view, photos } = useRepair()
  const [shown, setShown] = useState(gatePhoto(view.repair.id, view.next?.gate ?? 'painted', 'work'))
  const [caption, setCaption] = useState('')
  const aim = { serves: [shown], caption }
  return (
    <Dialog title="Photos" isOpen onClose={onClose}>
      <div className="form">
        <ShowsFields layers={view.section.layers} value={shown} onChange={setShown} />
        <TextInput
          label="Caption (may stay empty)"
          hint="stands under the photo in the owner’s report"
          value={caption}
          onChange={setCaption}
        />
        <RefusalNote refusal={photos.refusal} />
        <TakenStrip carId={view.car.carId} repair={photoWork(view)} />
        <div className="button-row end">
          {photos.hasCamera && <Button onClick={() => photos.choose(aim)}>From the gallery</Button>}
          <Button kind="main" onClick={() => photos.take(aim)}>
            {photos.hasCamera ? 'Take photos' : 'Choose photos'}
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
