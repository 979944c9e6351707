import { useController } from 'react-hook-form'
import type { FindingView } from '../../../domain/views/view-shapes.ts'
import { photoUrl } from '../../client.ts'
import { MarkedPhoto } from '../photos/marked-photo.tsx'
import styles from './variation-form.module.css'
import type { RaiseControl } from './variation-values.ts'

/** Any of the findings of a repair, each with its first photo. */
export function FindingChoice({
  control,
  findings,
}: {
  readonly control: RaiseControl
  readonly findings: readonly FindingView[]
}) {
  const { field } = useController({ control, name: 'findings' })
  const chosen: readonly string[] = field.value ?? []
  return (
    <fieldset className="field">
      <legend>Because of these findings</legend>
      {findings.length === 0 && (
        <p className="hint">No finding on this repair; findings are added on the repair’s own screen.</p>
      )}
      <div className={styles.findings}>
        {findings.map(({ id, layer, kind, grade, extent, photos: [photo] }) => (
          <label key={id} className={styles.finding}>
            <input
              type="checkbox"
              checked={chosen.includes(id)}
              onChange={(event) =>
                field.onChange(event.target.checked ? [...chosen, id] : chosen.filter((each) => each !== id))
              }
            />
            {photo === undefined ? (
              <span />
            ) : (
              <MarkedPhoto marks={photo.marks} src={photoUrl(photo.sha256, 'thumb')} alt="" loading="lazy" />
            )}
            <span>
              <span className="strong">
                {layer ?? 'the repair'}: {kind}, {grade}
              </span>
              <br />
              <span className="small">{extent}</span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
