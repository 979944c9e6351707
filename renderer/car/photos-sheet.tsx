import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { GATES, type Gate } from '../../domain/gates.ts'
import type { PhotoView } from '../../domain/views/shared-views.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import type { RepairId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { SelectInput } from '../parts/form/inputs.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { PhotoGrid } from '../parts/photos/photo-grid.tsx'
import { PhotoPick } from '../parts/photos/photo-pick.tsx'
import { useNamedPhoto } from '../parts/photos/use-named-photo.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './car.module.css'
import { repairChoices } from '../parts/car/repair-choices.ts'

/** Every photo of the car by week, the latest first, narrowed to a repair or gate. */
export function PhotosSheet({ view }: { readonly view: CarView }) {
  const when = useWhen()
  const named = useNamedPhoto()
  const [repairId, setRepairId] = useState<RepairId | null>(null)
  const [gate, setGate] = useState<Gate | null>(null)
  const shown = view.photos.filter((photo) => isOf(photo, repairId, gate))
  const weeks = Map.groupBy(
    shown.toSorted((a, b) => b.taken - a.taken),
    (photo) => when.week(photo.taken),
  )
  return (
    <div className="stack">
      <div className="row">
        <PhotoPick
          carId={view.header.carId}
          serves={[{ what: 'car' }]}
          label="Add photos of the whole car"
          kind="plain"
        />
        <Link to="/card" search={{ car: view.header.carId }} className="button">
          Photos from a card
        </Link>
      </div>
      <div className={`field-row ${styles.narrowing}`}>
        <SelectInput
          label="Repair"
          choices={repairChoices(view.repairs)}
          value={repairId}
          onChange={setRepairId}
          none="all repairs"
        />
        <SelectInput
          label="Gate"
          choices={asChoices(GATES)}
          value={gate}
          onChange={setGate}
          none="all gates"
        />
      </div>
      {view.photos.length === 0 ? (
        <EmptyState title="No photos yet">
          Every photo of this car stands here, week by week. Take them on a repair, where they count for its
          gates; add those of the whole car above, first of all as it came in.
        </EmptyState>
      ) : (
        shown.length === 0 && <p className="quiet">No photo of this repair and gate.</p>
      )}
      {[...weeks].map(([week, photos]) => (
        <section key={week} className="stack-tight">
          <h3>{week}</h3>
          <PhotoGrid photos={photos} carId={view.header.carId} named={named} />
        </section>
      ))}
    </div>
  )
}

const isOf = (photo: PhotoView, repairId: string | null, gate: Gate | null): boolean =>
  (repairId === null && gate === null) ||
  photo.serves.some(
    (served) =>
      (repairId === null || served.repairId === repairId) && (gate === null || served.gate === gate),
  )
