import { z } from 'zod'
import { overtimeSchema } from '../../domain/facts/plan-facts.ts'
import { dateSchema } from '../../domain/facts/shapes.ts'
import type { OvertimeId } from '../../domain/ids.ts'
import { WEEKDAYS } from '../../domain/text/words.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { clockTimeSchema } from '../parts/clock/clock-time.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { DateField, ManyField, TimeField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import type { WorkshopPerson } from './workshop-shapes.ts'

const schema = z
  .object({
    people: overtimeSchema.shape.people,
    from: dateSchema,
    to: dateSchema,
    weekdays: z.array(z.string()).min(1, 'Choose a day of the week.'),
    starts: clockTimeSchema,
    ends: clockTimeSchema,
  })
  .refine(({ from, to }) => from <= to, {
    path: ['to'],
    error: 'The last day must not come before the first.',
  })
  .refine(({ starts, ends }) => starts < ends, {
    path: ['ends'],
    error: 'Overtime must end after it starts.',
  })

const DAY_CHOICES = WEEKDAYS.map((words, index) => ({ value: String(index + 1), words }))

/** Long enough to hold every day of the week. */
const WEEKS_AT_FIRST = 4

/** Hours on top of people's own: a longer day, or a Saturday. */
export function OvertimeDialog({
  people,
  onClose,
}: {
  readonly people: readonly WorkshopPerson[]
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const form = useZodForm(schema, {
    people: [],
    from: when.today,
    to: addDays(when.today, WEEKS_AT_FIRST * 7 - 1),
    weekdays: ['6'],
    starts: '08:00',
    ends: '12:00',
  })
  const { control } = form
  return (
    <Dialog title="Add overtime" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Add it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ weekdays, starts, ends, ...values }) => {
          const payload = {
            ...values,
            overtimeId: newId<OvertimeId>(),
            weekdays: weekdays.map(Number),
            span: { from: starts, to: ends },
          }
          if (isSettled(await command.send({ kind: 'setOvertime', carId: null, payload }))) onClose()
        }}
      >
        <ManyField
          control={control}
          name="people"
          label="Who"
          choices={people.filter(({ active }) => active).map(({ id, name }) => ({ value: id, words: name }))}
        />
        <ManyField control={control} name="weekdays" label="On" choices={DAY_CHOICES} />
        <div className="field-row">
          <TimeField control={control} name="starts" label="From" />
          <TimeField control={control} name="ends" label="To" />
        </div>
        <div className="field-row">
          <DateField control={control} name="from" label="First day" />
          <DateField control={control} name="to" label="Last day" />
        </div>
        <p className="small quiet">
          It counts on holidays too, and not on days on which somebody is away. Clocks run on to its end by
          themselves.
        </p>
      </Form>
    </Dialog>
  )
}
