import { Button } from '../parts/form/button.tsx'
import { gatePhoto } from '../parts/photos/photo-aim.ts'
import { useRepair } from './repair-context.ts'

/** Each layer is photographed as it is left. */
export function AsLeftPhotos() {
  const { view, photos } = useRepair()
  const gate = view.next?.gate ?? 'painted'
  return (
    <ul className="lines">
      {view.section.layers.map(({ id, name }) => (
        <li key={id} className="line">
          {name}, as left
          <Button
            onClick={() =>
              photos.take({
                serves: [gatePhoto(view.repair.id, gate, 'as left', id)],
                caption: `${view.repair.name}, ${name}: as left`,
              })
            }
          >
            Take a photo
          </Button>
        </li>
      ))}
    </ul>
  )
}
