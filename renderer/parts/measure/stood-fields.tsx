import type { FieldPath, FieldValues } from 'react-hook-form'
import { CheckField, SelectField, type FormControl } from '../form/fields.tsx'
import { fixtureChoices } from './fixtures.ts'

/** How a shell is measured, as only like is compared with like: of forms that have `stood` and `doorsHung`. */
export function StoodFields<Values extends FieldValues>({
  control,
}: {
  readonly control: FormControl<Values>
}) {
  const at = (name: 'stood' | 'doorsHung') => name as FieldPath<Values>
  return (
    <>
      <SelectField
        control={control}
        name={at('stood')}
        label="How the shell stands"
        choices={fixtureChoices}
      />
      <CheckField control={control} name={at('doorsHung')} label="The doors are hung" />
    </>
  )
}
