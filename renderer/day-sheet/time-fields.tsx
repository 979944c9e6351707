import type { FieldPath } from 'react-hook-form'
import { z } from 'zod'
import type { TimeSpan } from '../../domain/facts/time-facts.ts'
import { localToInstant } from '../../domain/time/zone.ts'
import { clockTimeSchema } from '../parts/clock/clock-time.ts'
import { DateField, type FormControl, TimeField } from '../parts/form/fields.tsx'
import type { When } from '../parts/frame/when.tsx'

export const spanFields = {
  date: z.iso.date('Give a date.'),
  from: clockTimeSchema,
  to: clockTimeSchema,
}

export const endsAfterStart = {
  check: ({ from, to }: { readonly from: string; readonly to: string }) => from < to,
  says: { error: 'The entry ends before it starts. Correct one of the two times.', path: ['to'] },
}

interface SpanValues {
  date: string
  from: string
  to: string
}

/** A day with a start and an end. */
export function SpanFields<Values extends SpanValues>({
  control,
}: {
  readonly control: FormControl<Values>
}) {
  const name = (field: keyof SpanValues) => field as FieldPath<Values>
  return (
    <div className="field-row">
      <DateField control={control} name={name('date')} label="Day" />
      <TimeField control={control} name={name('from')} label="From" />
      <TimeField control={control} name={name('to')} label="To" />
    </div>
  )
}

export function toSpan({ date, from, to }: SpanValues, when: When): TimeSpan {
  return {
    kind: 'span',
    start: when.iso(localToInstant(date, from, when.zone)),
    end: when.iso(localToInstant(date, to, when.zone)),
  }
}
