import type { UseFormReturn } from 'react-hook-form'
import { z } from 'zod'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { ChoiceField, DateField, NumberField } from '../parts/form/fields.tsx'
import {
  agreementFields,
  capIsGiven,
  chargeChoices,
  priorityChoices,
  toCharge,
} from '../parts/car/visit-words.ts'

export const visitSchema = z.object(agreementFields).refine(capIsGiven.check, capIsGiven.says)

type Agreement = Pick<CommandPayload<'changeVisit'>, 'promised' | 'priority' | 'charge'>

export const toAgreement = ({
  promised,
  priority,
  charge,
  capHours,
}: z.output<typeof visitSchema>): Agreement => ({
  promised,
  priority: Number(priority),
  charge: toCharge(charge, capHours),
})

/** What was agreed about a visit. */
export function VisitFields({
  form,
}: {
  readonly form: UseFormReturn<z.input<typeof visitSchema>, unknown, z.output<typeof visitSchema>>
}) {
  return (
    <>
      <DateField control={form.control} name="promised" label="Promised for" hint="may stay empty" />
      <ChoiceField control={form.control} name="priority" label="Priority" choices={priorityChoices} />
      <ChoiceField control={form.control} name="charge" label="Charged" choices={chargeChoices} />
      {form.watch('charge') === 'capped' && (
        <NumberField control={form.control} name="capHours" label="Cap" unit="h" />
      )}
    </>
  )
}
