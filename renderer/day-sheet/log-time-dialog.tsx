import { useState } from 'react'
import { z } from 'zod'
import {
  nameSchema,
  optionalNoteSchema,
  REWORK_CAUSES,
  reworkCauseSchema,
} from '../../domain/facts/shapes.ts'
import type { LoggedOn } from '../../domain/facts/time-facts.ts'
import type { CarId, EntryId } from '../../domain/ids.ts'
import type { DaySheetView } from '../../domain/views/view-shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, NoteField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { endsAfterStart, SpanFields, spanFields, toSpan } from './time-fields.tsx'
import { lineTarget } from '../parts/car/line-target.ts'

const schema = z
  .object({
    ...spanFields,
    /** Index of a line of the day sheet; null for the workshop itself. */
    line: z.string().nullable(),
    what: z.string(),
    hotWork: z.boolean(),
    cause: reworkCauseSchema.nullable(),
    note: optionalNoteSchema,
  })
  .refine(endsAfterStart.check, endsAfterStart.says)
  .refine(({ line, what }) => line !== null || nameSchema.safeParse(what).success, {
    error: 'Say what it was.',
    path: ['what'],
  })

/** Time that was worked without a clock, with its start and its end. */
export function LogTimeDialog({
  view,
  onClose,
}: {
  readonly view: DaySheetView
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const [entryId] = useState(() => newId<EntryId>())
  const lines = [...view.canDo, ...view.waits]
  const form = useZodForm(schema, {
    date: when.today,
    from: '',
    to: '',
    line: lines.length > 0 ? '0' : null,
    what: '',
    hotWork: lines[0]?.hotWork ?? false,
    cause: null,
    note: '',
  })
  const line = form.watch('line')

  const submit = async (values: z.output<typeof schema>) => {
    const chosen = values.line === null ? undefined : lines[Number(values.line)]
    const target = chosen && lineTarget(chosen)
    const on: LoggedOn = target
      ? { kind: 'work', targets: [target] }
      : { kind: 'workshop', what: values.what.trim() }
    const outcome = await command.send({
      kind: 'logTime',
      carId: target && chosen ? (chosen.carId satisfies CarId) : null,
      payload: {
        entryId,
        personId: view.personId,
        on,
        hotWork: target ? values.hotWork : false,
        cause: target ? values.cause : null,
        time: toSpan(values, when),
        shares: null,
        note: values.note,
      },
    })
    if (isSettled(outcome)) onClose()
  }

  return (
    <Dialog title="Log time by hand" isOpen onClose={onClose}>
      <Form form={form} submit="Log it" refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
        <SelectField
          control={form.control}
          name="line"
          label="What it was on"
          choices={lines.map((each, index) => ({
            value: String(index),
            words: [each.name, each.gate].filter(Boolean).join(': '),
            group: each.carName,
          }))}
          none="the workshop itself"
        />
        {line === null && (
          <TextField control={form.control} name="what" label="What was done" hint="for instance: sweeping" />
        )}
        <SpanFields control={form.control} />
        {line !== null && (
          <>
            <CheckField
              control={form.control}
              name="hotWork"
              label="cutting, grinding or welding"
              hint="a fire watch follows while its time is not over"
            />
            <SelectField
              control={form.control}
              name="cause"
              label="If it was rework: why"
              none="no rework"
              choices={asChoices(REWORK_CAUSES)}
            />
          </>
        )}
        <NoteField control={form.control} name="note" label="Note (may stay empty)" />
      </Form>
    </Dialog>
  )
}
