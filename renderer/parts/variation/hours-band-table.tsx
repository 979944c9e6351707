import { useState } from 'react'
import { useController } from 'react-hook-form'
import { type Gate, GATES } from '../../../domain/gates.ts'
import { WordButton } from '../form/button.tsx'
import { NumberInput } from '../form/inputs.tsx'
import styles from './variation-form.module.css'
import { ENDS, type RaiseControl } from './variation-values.ts'

/** Low, likely and high hours of the gates that matter; the others come on demand. */
export function HoursBandTable({
  control,
  first,
  error,
}: {
  readonly control: RaiseControl
  /** Gates that are shown from the start. */
  readonly first: readonly Gate[]
  /** What is wrong with the hours as a whole. */
  readonly error: string | undefined
}) {
  const [isAll, setIsAll] = useState(false)
  return (
    <fieldset className="field">
      <legend>Hours more, or less with a minus</legend>
      <table className={styles.hours}>
        <thead>
          <tr>
            <th scope="col">gate</th>
            {ENDS.map((end) => (
              <th key={end} scope="col">
                {end}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {GATES.filter((gate) => isAll || first.includes(gate)).map((gate) => (
            <GateRow key={gate} control={control} gate={gate} />
          ))}
        </tbody>
      </table>
      {!isAll && first.length < GATES.length && (
        <div>
          <WordButton onClick={() => setIsAll(true)}>other gates</WordButton>
        </div>
      )}
      {error === undefined ? (
        <div className="hint">Low and high may stay empty where nothing is in doubt.</div>
      ) : (
        <div className="error" role="alert">
          {error}
        </div>
      )}
    </fieldset>
  )
}

function GateRow({ control, gate }: { readonly control: RaiseControl; readonly gate: Gate }) {
  const low = useController({ control, name: `hours.${gate}.low` })
  const likely = useController({ control, name: `hours.${gate}.likely` })
  const high = useController({ control, name: `hours.${gate}.high` })
  const cells = { low, likely, high }
  const says = ENDS.flatMap((end) => cells[end].fieldState.error?.message ?? [])
  const id = `says-${gate}`
  return (
    <>
      <tr>
        <th scope="row">{gate}</th>
        {ENDS.map((end) => {
          const { field, fieldState } = cells[end]
          return (
            <td key={end}>
              <NumberInput
                unit="h"
                aria-label={`${gate}, ${end}`}
                aria-invalid={fieldState.error !== undefined}
                aria-describedby={says.length > 0 ? id : undefined}
                value={field.value ?? null}
                onChange={field.onChange}
                onBlur={field.onBlur}
                ref={field.ref}
              />
            </td>
          )
        })}
      </tr>
      {says.length > 0 && (
        <tr>
          <td colSpan={4} className={styles.says}>
            <div id={id} className="error" role="alert">
              {says.join(' ')}
            </div>
          </td>
        </tr>
      )}
    </>
  )
}
