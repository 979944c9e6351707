import type { ReactNode } from 'react'
import { useController, type FieldPath, type FieldValues } from 'react-hook-form'
import type { FormControl } from '../form/fields.tsx'
import { CheckInput } from '../form/inputs.tsx'

/** A part of a plan that is there or not: ticked it starts from what is usual, and its own fields show; else it is null. */
export function OptionalPart<Values extends FieldValues>({
  control,
  name,
  label,
  usual,
  children,
}: {
  readonly control: FormControl<Values>
  readonly name: FieldPath<Values>
  readonly label: string
  readonly usual: object
  readonly children: ReactNode
}) {
  const { field } = useController({ control, name })
  const isThere = field.value !== null
  return (
    <div className="stack-tight">
      <CheckInput
        label={label}
        value={isThere}
        onChange={(isTicked) => field.onChange(isTicked ? { ...usual } : null)}
      />
      {isThere && <div className="field-row">{children}</div>}
    </div>
  )
}
