import { useState } from 'react'
import { z } from 'zod'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { hoursSchema, reasonSchema } from '../../domain/facts/shapes.ts'
import type { TimeSpan } from '../../domain/facts/time-facts.ts'
import type { EntryId } from '../../domain/ids.ts'
import type { EntryView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { endsAfterStart, SpanFields, spanFields, toSpan } from './time-fields.tsx'

const spanSchema = z
  .object({ ...spanFields, reason: reasonSchema })
  .refine(endsAfterStart.check, endsAfterStart.says)
const daySchema = z.object({ hours: hoursSchema.positive().max(24), reason: reasonSchema })

interface Props {
  readonly entry: EntryView
  readonly onClose: () => void
}

/** The old entry stays in the journal; the new one counts in its place. */
export function CorrectTimeDialog(props: Props) {
  return (
    <Dialog title={`Correct: ${props.entry.what}`} isOpen onClose={props.onClose}>
      {props.entry.start === null ? (
        <DayForm {...props} />
      ) : (
        <SpanForm {...props} start={props.entry.start} />
      )}
    </Dialog>
  )
}

function SpanForm({ entry, start, onClose }: Props & { readonly start: number }) {
  const when = useWhen()
  const { command, correct } = useCorrection(entry)
  const form = useZodForm(spanSchema, {
    date: when.dateOf(start),
    from: when.time(start),
    to: entry.end === null ? '' : when.time(entry.end),
    reason: '',
  })
  return (
    <Form
      form={form}
      submit="Correct it"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ reason, ...span }) => {
        if (isSettled(await correct(toSpan(span, when), reason))) onClose()
      }}
    >
      <SpanFields control={form.control} />
      <NoteField control={form.control} name="reason" label="Why it is corrected" />
    </Form>
  )
}

function DayForm({ entry, onClose }: Props) {
  const { command, correct } = useCorrection(entry)
  const form = useZodForm(daySchema, { hours: entry.hours, reason: '' })
  return (
    <Form
      form={form}
      submit="Correct it"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ hours, reason }) => {
        if (isSettled(await correct({ kind: 'day', date: entry.date, hours }, reason))) onClose()
      }}
    >
      <NumberField control={form.control} name="hours" label="Hours" unit="h" />
      <NoteField control={form.control} name="reason" label="Why it is corrected" />
    </Form>
  )
}

function useCorrection(entry: EntryView) {
  const command = useCommand()
  const [entryId] = useState(() => newId<EntryId>())
  const correct = (time: TimeSpan, reason: string) =>
    command.send({
      kind: 'correctTime',
      carId: entry.carId,
      payload: {
        entryId,
        replaces: entry.entryId as EntryId,
        personId: entry.personId,
        // The payload's lists may be changed, the view's may not: a copy of the same shape.
        on: structuredClone(entry.on) as CommandPayload<'correctTime'>['on'],
        cause: entry.cause,
        time,
        shares: entry.shares === null ? null : [...entry.shares],
        reason,
      },
    })
  return { command, correct }
}
