import { useFieldArray } from 'react-hook-form'
import { JOINT_KINDS } from '../../domain/facts/shapes.ts'
import type { JointId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { NumberField, SelectField, TextField } from '../parts/form/fields.tsx'
import { newId } from '../parts/form/new-id.ts'
import type { PlanForm } from './plan-form.ts'
import styles from './types.module.css'

/** The weld plan: spots and plugs by count, seams by length. */
export function WeldFields({ form }: { readonly form: PlanForm }) {
  const { control } = form
  const { fields, append, remove } = useFieldArray({ control, name: 'welds' })
  const welds = form.watch('welds')
  return (
    <section className="stack-tight">
      <h3>Weld plan</h3>
      {fields.map((each, index) => (
        <div key={each.id} className={styles.weldRow}>
          <TextField control={control} name={`welds.${index}.name`} label="Joint" />
          <SelectField
            control={control}
            name={`welds.${index}.kind`}
            label="Weld"
            choices={asChoices(JOINT_KINDS)}
          />
          <NumberField
            control={control}
            name={`welds.${index}.planned`}
            label="Planned"
            unit={welds[index]?.kind === 'seam' ? 'mm' : 'pieces'}
          />
          <WordButton aria-label={`Remove joint ${index + 1}`} onClick={() => remove(index)}>
            remove
          </WordButton>
        </div>
      ))}
      <div>
        <Button onClick={() => append({ jointId: newId<JointId>(), name: '', kind: 'plug', planned: 10 })}>
          Add a joint
        </Button>
      </div>
    </section>
  )
}
