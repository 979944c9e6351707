import { useFieldArray } from 'react-hook-form'
import { COST_KINDS } from '../../../domain/facts/money-facts.ts'
import type { CostId } from '../../../domain/ids.ts'
import { asChoices } from '../form/as-choices.ts'
import { Button, WordButton } from '../form/button.tsx'
import { SelectField, TextField } from '../form/fields.tsx'
import { MoneyField } from '../form/money-field.tsx'
import { newId } from '../form/new-id.ts'
import styles from './variation-form.module.css'
import type { RaiseControl } from './variation-values.ts'

/** Parts, materials and work by other firms, each with what it is expected to cost. */
export function CostRows({
  control,
  currency,
}: {
  readonly control: RaiseControl
  readonly currency: string
}) {
  const { fields, append, remove } = useFieldArray({ control, name: 'costs', keyName: 'key' })
  return (
    <fieldset className="field">
      <legend>Parts, materials and outside work</legend>
      {fields.map(({ key }, index) => (
        <div key={key} className={styles.cost}>
          <TextField control={control} name={`costs.${index}.name`} label="What" />
          <SelectField
            control={control}
            name={`costs.${index}.kind`}
            label="It is a"
            choices={asChoices(COST_KINDS)}
          />
          <MoneyField
            control={control}
            name={`costs.${index}.amount`}
            label="Costs, without tax"
            currency={currency}
          />
          <WordButton onClick={() => remove(index)}>leave it out</WordButton>
        </div>
      ))}
      <div>
        <Button
          onClick={() => append({ costId: newId<CostId>(), kind: 'part', name: '', amount: NO_AMOUNT })}
        >
          Add a cost
        </Button>
      </div>
    </fieldset>
  )
}

/** An empty field; the form says so when it is sent. */
const NO_AMOUNT = null as unknown as number
