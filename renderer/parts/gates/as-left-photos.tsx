import type { PhotoView, SectionLayer } from '../../../domain/views/shared-views.ts'
import type { RepairView } from '../../../domain/views/view-shapes.ts'
import { Button } from '../form/button.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { gatePhoto } from '../photos/photo-aim.ts'
import { TakenStrip } from '../photos/taken-strip.tsx'
import { usePhotoInputs } from '../photos/use-photo-inputs.tsx'

/** Each layer that can be seen is photographed as it is left; `photos` are those that are named for it. */
export function AsLeftPhotos({
  view: { car, repair, section, next, gates },
  photos,
}: {
  readonly view: RepairView
  readonly photos: readonly PhotoView[]
}) {
  const inputs = usePhotoInputs(car.carId)
  const isOpened = gates.some(({ gate, mark }) => gate === 'opened' && mark.mark === 'passed')
  return (
    <>
      <ul className="lines">
        {section.layers
          .filter(({ grade }) => grade !== 'not seen')
          .map((layer) => (
            <li key={layer.id} className="line">
              <span>
                {layer.name}:{' '}
                {isPhotographed(layer, photos) ? (
                  <span className="is-passed">✓ photo as left</span>
                ) : (
                  <span className={isOpened ? 'is-accent' : 'quiet'}>
                    {isOpened ? 'photo as left needed' : 'no photo as left'}
                  </span>
                )}
              </span>
              <Button
                onClick={() =>
                  inputs.take({
                    serves: [gatePhoto(repair.id, next?.gate ?? 'painted', 'as left', layer.id)],
                    caption: `${repair.name}, ${layer.name}: as left`,
                  })
                }
              >
                Photo of {layer.name}
              </Button>
            </li>
          ))}
      </ul>
      {inputs.inputs}
      <RefusalNote refusal={inputs.refusal} />
      <TakenStrip carId={car.carId} repair={{ repairId: repair.id, layers: section.layers }} />
    </>
  )
}

const isPhotographed = ({ id }: SectionLayer, photos: readonly PhotoView[]): boolean =>
  photos.some(({ serves }) => serves.some(({ layerId, shows }) => layerId === id && shows === 'as left'))
