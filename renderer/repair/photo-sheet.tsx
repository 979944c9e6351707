import { Button, WordButton } from '../parts/form/button.tsx'
import { PhotoGrid } from '../parts/photos/photo-grid.tsx'
import { useNamedPhoto } from '../parts/photos/use-named-photo.ts'
import { useRepair } from './repair-context.ts'

/** Every photo that serves this repair, the latest first. */
export function PhotoSheet() {
  const { view, open } = useRepair()
  const named = useNamedPhoto()
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Photos{view.photos.length > 0 && ` ${view.photos.length}`}</h3>
        <span className="row">
          {view.photos.length > 0 && (
            <WordButton onClick={() => open({ kind: 'captions' })}>write captions</WordButton>
          )}
          <Button onClick={() => open({ kind: 'photos' })}>Add photos</Button>
        </span>
      </div>
      {view.photos.length === 0 ? (
        <p className="quiet">
          No photo yet. The first one is taken before anything is cut: it shows what was there.
        </p>
      ) : (
        <PhotoGrid photos={view.photos} carId={view.car.carId} named={named} />
      )}
    </section>
  )
}
