import type { FieldPath, FieldValues } from 'react-hook-form'
import { COST_KINDS } from '../../domain/facts/money-facts.ts'
import type { MoneyView } from '../../domain/views/money-view.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { ChoiceField, type FormControl, SelectField, TextField } from '../parts/form/fields.tsx'

/** What money is for, and on which repair: of forms that have a `name`, a `kind` and a `repairId`. */
export function MoneyWhatFields<Values extends FieldValues>({
  control,
  repairs,
  isFirst = false,
}: {
  readonly control: FormControl<Values>
  readonly repairs: MoneyView['repairs']
  /** The name is what the dialog starts with. */
  readonly isFirst?: boolean
}) {
  const at = (name: 'name' | 'kind' | 'repairId') => name as FieldPath<Values>
  return (
    <>
      <TextField control={control} name={at('name')} label="What" isFirst={isFirst} />
      <ChoiceField control={control} name={at('kind')} label="It is a" choices={asChoices(COST_KINDS)} />
      <SelectField
        control={control}
        name={at('repairId')}
        label="For"
        none="the whole car"
        choices={repairs.map(({ id, name }) => ({ value: id, words: name }))}
      />
    </>
  )
}
