import { useId, useState } from 'react'
import type { ReportPhoto } from '../../domain/report/owner-week-shapes.ts'
import type { Crop } from '../../domain/report/report-choices.ts'
import { photoUrl } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { FieldFrame, NumberInput } from '../parts/form/inputs.tsx'
import styles from './crop.module.css'
import { type CropEdge, isWhole, setCrop, WHOLE } from './crops.ts'
import { useCropDrag } from './use-crop-drag.ts'

const HANDLES: readonly (readonly CropEdge[])[] = [
  ['top'],
  ['right'],
  ['bottom'],
  ['left'],
  ['left', 'top'],
  ['right', 'top'],
  ['left', 'bottom'],
  ['right', 'bottom'],
]

const FIGURES = [
  ['left', 'From the left'],
  ['top', 'From the top'],
  ['width', 'Width'],
  ['height', 'Height'],
] as const

/** Which part of a photo the letter shows: dragged, by the arrow keys, or typed. The photo itself is not changed. */
export function CropDialog({
  photo,
  onCrop,
  onClose,
}: {
  readonly photo: ReportPhoto
  /** Null shows the whole photo. */
  readonly onCrop: (crop: Crop | null) => void
  readonly onClose: () => void
}) {
  const [crop, setOwn] = useState(photo.crop ?? WHOLE)
  return (
    <Dialog title="Crop the photo" isOpen onClose={onClose} size="wide">
      <div className="stack">
        <p className="quiet">
          {photo.caption}, {photo.taken}. Drag the frame or its edges. The photo itself stays as it is.
        </p>
        <CropFrame photo={photo} crop={crop} onChange={setOwn} />
        <div className={styles.figures}>
          {FIGURES.map(([name, label]) => (
            <FieldFrame key={name} label={label}>
              {(ids) => (
                <NumberInput
                  {...ids}
                  unit="%"
                  value={Math.round(crop[name] * 1000) / 10}
                  onChange={(percent) => {
                    if (percent !== null && Number.isFinite(percent))
                      setOwn(setCrop(crop, name, percent / 100))
                  }}
                />
              )}
            </FieldFrame>
          ))}
        </div>
        <div className="button-row end">
          <Button onClick={() => setOwn(WHOLE)} aria-disabled={isWhole(crop)}>
            Whole photo
          </Button>
          <Button onClick={onClose}>Cancel</Button>
          <Button
            kind="main"
            onClick={() => {
              onCrop(isWhole(crop) ? null : crop)
              onClose()
            }}
          >
            Use this part
          </Button>
        </div>
      </div>
    </Dialog>
  )
}

function CropFrame({
  photo,
  crop,
  onChange,
}: {
  readonly photo: ReportPhoto
  readonly crop: Crop
  readonly onChange: (crop: Crop) => void
}) {
  const id = useId()
  const drag = useCropDrag(crop, onChange)
  const place = {
    left: `${crop.left * 100}%`,
    top: `${crop.top * 100}%`,
    width: `${crop.width * 100}%`,
    height: `${crop.height * 100}%`,
  }
  return (
    <div className={styles.field}>
      <div ref={drag.photo} className={styles.photo}>
        <img src={photoUrl(photo.sha256, 'screen')} alt={photo.caption} draggable={false} />
        <div className={styles.frame} style={place}>
          <button
            type="button"
            className={styles.move}
            aria-label="The part that is shown"
            aria-describedby={id}
            {...drag.ofFrame}
          />
          {HANDLES.map((edges) => (
            <span
              key={edges.join(' ')}
              className={`${styles.handle} ${edges.map((edge) => styles[edge]).join(' ')}`}
              {...drag.ofHandle(edges)}
            />
          ))}
        </div>
      </div>
      <p id={id} className="small quiet">
        With the frame chosen, the arrow keys move it; with Shift they change its size.
      </p>
    </div>
  )
}
