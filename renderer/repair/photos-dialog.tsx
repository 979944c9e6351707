import { useState } from 'react'
import { GATES, type Gate } from '../../domain/gates.ts'
import { Button } from '../parts/button.tsx'
import { Dialog } from '../parts/dialog.tsx'
import { ChoiceRow, FieldFrame, SelectInput } from '../parts/fields.tsx'
import { RefusalNote } from '../parts/notice.tsx'
import { PhotosOnTheirWay } from '../parts/photo-pick.tsx'
import { gatePhoto, type Shows } from '../parts/photo-aim.ts'
import { useRepair } from './repair-context.ts'

/** Photos with what they show said first: gate, before or after, which layer, and a caption. */
export function PhotosDialog({ onClose }: { readonly onClose: () => void }) {
  const { view, photos } = useRepair()
  const [gate, setGate] = useState<Gate>(view.next?.gate ?? 'painted')
  const [shows, setShows] = useState<Shows>('work')
  const [layerId, setLayerId] = useState<string | null>(null)
  const [caption, setCaption] = useState('')
  const aim = { serves: [gatePhoto(view.repair.id, gate, shows, layerId)], caption }
  return (
    <Dialog title="Photos" isOpen onClose={onClose}>
      <div className="form">
        <div className="field-row">
          <SelectInput
            label="For which gate"
            choices={GATES.map((value) => ({ value, words: value }))}
            value={gate}
            onChange={(value) => value !== null && setGate(value)}
          />
          <SelectInput
            label="Of which layer"
            choices={view.section.layers.map(({ id, name }) => ({ value: id, words: name }))}
            value={layerId}
            onChange={setLayerId}
            none="the repair as a whole"
          />
        </div>
        <ChoiceRow label="What they show" choices={SHOWS_CHOICES} value={shows} onChange={setShows} />
        <FieldFrame label="Caption (may stay empty)" hint="stands under the photo in the owner’s report">
          {(ids) => (
            <input
              {...ids}
              className="input"
              value={caption}
              onChange={(event) => setCaption(event.target.value)}
            />
          )}
        </FieldFrame>
        <RefusalNote refusal={photos.refusal} />
        <PhotosOnTheirWay carId={view.car.carId} />
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

const SHOWS_CHOICES: readonly { readonly value: Shows; readonly words: string }[] = [
  { value: 'before', words: 'before' },
  { value: 'work', words: 'the work' },
  { value: 'after', words: 'after' },
  { value: 'layer', words: 'a layer' },
  { value: 'prepared', words: 'prepared surface' },
  { value: 'as left', words: 'as left' },
]
