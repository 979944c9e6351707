import { useFieldArray, type UseFormReturn } from 'react-hook-form'
import { Button, WordButton } from '../parts/form/button.tsx'
import { DateField } from '../parts/form/fields.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './people.module.css'

/** Days off, from the first to the last. */
export function AbsenceFields({
  form,
}: {
  // oxlint-disable-next-line typescript/no-explicit-any -- the form holds more than the absences
  readonly form: UseFormReturn<any, unknown, any>
}) {
  const when = useWhen()
  const { fields, append, remove } = useFieldArray({ control: form.control, name: 'absences' })
  return (
    <fieldset className="field">
      <legend>Absences</legend>
      <div className="stack-tight">
        {fields.map((each, index) => (
          <div key={each.id} className={styles.absence}>
            <DateField control={form.control} name={`absences.${index}.from`} label="First day away" />
            <DateField control={form.control} name={`absences.${index}.to`} label="Last day away" />
            <WordButton aria-label={`Remove absence ${index + 1}`} onClick={() => remove(index)}>
              remove
            </WordButton>
          </div>
        ))}
        <div>
          <Button onClick={() => append({ from: when.today, to: when.today })}>Add an absence</Button>
        </div>
      </div>
    </fieldset>
  )
}
