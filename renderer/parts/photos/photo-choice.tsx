import type { AttachmentId } from '../../../domain/ids.ts'
import type { PhotoView } from '../../../domain/views/shared-views.ts'
import { photoUrl } from '../../client.ts'
import { MarkedPhoto } from './marked-photo.tsx'
import { useWhen } from '../frame/when.tsx'
import styles from './photo-choice.module.css'

/** Any of the photos that are there already, by their pictures. */
export function PhotoChoice({
  label,
  photos,
  chosen,
  onChange,
}: {
  readonly label: string
  readonly photos: readonly PhotoView[]
  readonly chosen: readonly AttachmentId[]
  readonly onChange: (chosen: readonly AttachmentId[]) => void
}) {
  const when = useWhen()
  return (
    <fieldset className="field">
      <legend>{label}</legend>
      {photos.length === 0 && <p className="hint">No photo of this repair has arrived yet.</p>}
      <div className={styles.choice}>
        {photos.map(({ attachmentId, sha256, caption, marks, taken, serves }) => (
          <label key={attachmentId}>
            <input
              type="checkbox"
              checked={chosen.includes(attachmentId)}
              onChange={(event) =>
                onChange(
                  event.target.checked
                    ? [...chosen, attachmentId]
                    : chosen.filter((each) => each !== attachmentId),
                )
              }
            />
            <MarkedPhoto
              marks={marks}
              src={photoUrl(sha256, 'thumb')}
              alt={`${caption || serves[0]?.shows || 'photo'}, ${when.dayAndTime(taken)}`}
              loading="lazy"
            />
          </label>
        ))}
      </div>
    </fieldset>
  )
}
