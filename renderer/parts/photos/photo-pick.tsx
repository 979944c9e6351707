import type { PhotoServes } from '../../../domain/facts/work-facts.ts'
import type { CarId } from '../../../domain/ids.ts'
import { Button } from '../form/button.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { TakenStrip } from './taken-strip.tsx'
import { usePhotoInputs } from './use-photo-inputs.tsx'

/** Takes photos with the camera or from the gallery, and shows those that were just taken. */
export function PhotoPick({
  carId,
  serves,
  caption = '',
  label = 'Take photos',
  kind = 'main',
}: {
  readonly carId: CarId
  readonly serves: readonly PhotoServes[]
  readonly caption?: string
  readonly label?: string
  readonly kind?: 'main' | 'plain'
}) {
  const aim = { serves, caption }
  const photos = usePhotoInputs(carId, undefined, aim)
  return (
    <div className="stack-tight">
      <div className="button-row">
        <Button kind={kind} onClick={() => photos.take(aim)}>
          {label}
        </Button>
        {photos.hasCamera && <Button onClick={() => photos.choose(aim)}>From the gallery</Button>}
      </div>
      {photos.inputs}
      <RefusalNote refusal={photos.refusal} />
      <TakenStrip carId={carId} />
    </div>
  )
}
