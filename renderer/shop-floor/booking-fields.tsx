import type { UseFormReturn } from 'react-hook-form'
import { z } from 'zod'
import { bayIdSchema } from '../../domain/ids.ts'
import { DateField, SelectField } from '../parts/form/fields.tsx'
import type { FloorBayView } from './floor-plan.tsx'

export const bookingSchema = z
  .object({
    bayId: bayIdSchema,
    from: z.iso.date('Give the first day.'),
    to: z.iso.date('Give the last day.'),
  })
  .refine(({ from, to }) => from <= to, {
    error: 'The last day must not lie before the first.',
    path: ['to'],
  })

/** Bay, first day and last day, both counted. */
export function BookingFields({
  form,
  bays,
}: {
  readonly form: UseFormReturn<z.input<typeof bookingSchema>, unknown, z.output<typeof bookingSchema>>
  readonly bays: readonly FloorBayView[]
}) {
  return (
    <>
      <SelectField
        control={form.control}
        name="bayId"
        label="Bay"
        none="choose a bay"
        choices={bayChoices(bays)}
      />
      <div className="field-row">
        <DateField control={form.control} name="from" label="From" />
        <DateField control={form.control} name="to" label="To, the last day" />
      </div>
    </>
  )
}

export const bayChoices = (bays: readonly FloorBayView[]) =>
  bays.map(({ id, name, kinds, cars }) => ({
    value: id,
    words: `${name} (${kinds.join(', ')})${cars.length > 0 ? `: ${cars.map((car) => car.name).join(', ')}` : ': empty'}`,
  }))
