import type { FieldPath, FieldValues } from 'react-hook-form'
import type { z } from 'zod'
import type { gatePlanSchema } from '../../../domain/facts/shapes.ts'
import type { FormControl } from '../form/fields.tsx'

/** A form that has the plan of a gate somewhere in it. */
export interface GateForm<Values extends FieldValues> {
  readonly control: FormControl<Values>
  /** Where the plan lies in the form, with a dot at its end; '' where the form is the plan. */
  readonly at: `gates.${string}.` | ''
}

/** The name, in such a form, of a field of the gate's plan. */
export const pathIn =
  <Values extends FieldValues>(at: GateForm<Values>['at']) =>
  (name: FieldPath<z.input<typeof gatePlanSchema>>): FieldPath<Values> =>
    `${at}${name}` as FieldPath<Values>
