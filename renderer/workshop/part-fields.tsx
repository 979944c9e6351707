import { useFieldArray } from 'react-hook-form'
import { GATES } from '../../domain/gates.ts'
import type { PartId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { SelectField, TextField } from '../parts/form/fields.tsx'
import { newId } from '../parts/form/new-id.ts'
import type { PlanForm } from './plan-form.ts'
import styles from './types.module.css'

/** Parts that the repair needs; their gate waits until they are checked. */
export function PartFields({ form }: { readonly form: PlanForm }) {
  const { control } = form
  const { fields, append, remove } = useFieldArray({ control, name: 'parts' })
  return (
    <section className="stack-tight">
      <h3>Parts</h3>
      {fields.map((each, index) => (
        <div key={each.id} className={styles.partRow}>
          <TextField control={control} name={`parts.${index}.name`} label="Part" />
          <SelectField
            control={control}
            name={`parts.${index}.gate`}
            label="Needed for"
            choices={asChoices(GATES)}
          />
          <WordButton aria-label={`Remove part ${index + 1}`} onClick={() => remove(index)}>
            remove
          </WordButton>
        </div>
      ))}
      <div>
        <Button onClick={() => append({ partId: newId<PartId>(), name: '', gate: 'fabricated' })}>
          Add a part
        </Button>
      </div>
    </section>
  )
}
