import { z } from 'zod'
import type { CarId, EntryId } from '../../../domain/ids.ts'
import { optionalNoteSchema } from '../../../domain/facts/shapes.ts'
import { localToInstant } from '../../../domain/time/zone.ts'
import type { ClockView } from '../../../domain/views/shared-views.ts'
import { clockTimeSchema } from './clock-time.ts'
import { Dialog } from '../form/dialog.tsx'
import { DateField, NoteField, TimeField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { useWhen } from '../frame/when.tsx'

const schema = z.object({
  date: z.iso.date('Give a date.'),
  time: clockTimeSchema,
  reason: optionalNoteSchema,
})

/** A clock ran past the end of the person's day: when did the work really stop? */
export function ConfirmClockDialog({
  clock,
  onClose,
}: {
  readonly clock: ClockView
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const form = useZodForm(schema, {
    date: when.dateOf(clock.countsTo),
    time: when.time(clock.countsTo),
    reason: '',
  })
  return (
    <Dialog title={`When did ${clock.person} stop?`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Confirm this time"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ date, time, reason }) => {
          const end = when.iso(localToInstant(date, time, when.zone))
          const outcome = await command.send({
            kind: 'confirmClock',
            carId: clock.carId as CarId | null,
            payload: { entryId: clock.entryId as EntryId, end, reason },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p>
          {clock.what}, since {when.dayAndTime(clock.since)}. Until somebody says otherwise it counts to{' '}
          {when.dayAndTime(clock.countsTo)}, the end of the working day. Real overtime is confirmed here.
        </p>
        <div className="field-row">
          <DateField control={form.control} name="date" label="Stopped on" />
          <TimeField control={form.control} name="time" label="at" />
        </div>
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}
