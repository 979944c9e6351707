import { z } from 'zod'
import { nameSchema, noteSchema, optionalNoteSchema, PAYERS, payerSchema } from '../../domain/facts/shapes.ts'
import type { CarId, VariationId, VisitId } from '../../domain/ids.ts'
import type { TaskView } from '../../domain/views/view-shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField, NumberField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { spentOf } from '../parts/hours/hours-bar.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { bandOf, bandSchema, ENDS, noBand } from '../parts/variation/variation-values.ts'

const schema = z.object({
  payer: payerSchema,
  title: nameSchema,
  why: noteSchema,
  ifNot: optionalNoteSchema,
  hours: bandSchema.refine((band) => bandOf(band) !== null, {
    error: 'Give hours more or less.',
    path: ['likely'],
  }),
})

/** Extra or less work on a task of the car, put to its payer. */
export function RaiseTaskVariationDialog({
  carId,
  visitId,
  task,
  onClose,
}: {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly task: TaskView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { payer: 'owner', title: '', why: '', ifNot: '', hours: noBand })
  const { control } = form
  return (
    <Dialog title={`Raise a variation on ${task.name}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Raise it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ hours, ...rest }) => {
          const band = bandOf(hours)
          if (band === null) return
          const { low, likely, high } = band
          const target = { kind: 'task' as const, taskId: task.id }
          const payload = {
            variationId: newId<VariationId>(),
            visitId,
            ...rest,
            findings: [],
            attachments: [],
            lines: [{ target, hours: likely, low, high }],
            costs: [],
          }
          if (isSettled(await command.send({ kind: 'raiseVariation', carId, payload }))) onClose()
        }}
      >
        <TextField control={control} name="title" label="What it is about" isFirst />
        <ChoiceField control={control} name="payer" label="Who decides" choices={asChoices(PAYERS)} />
        <NoteField control={control} name="why" label="Why" hint="The payer reads this." />
        <NoteField control={control} name="ifNot" label="What happens if it is not done (may stay empty)" />
        <fieldset className="field">
          <legend>Hours more, or less with a minus</legend>
          <div className="three-points">
            {ENDS.map((end) => (
              <NumberField key={end} control={control} name={`hours.${end}`} label={end} unit="h" />
            ))}
          </div>
          <div className="hint">
            {spentOf(task.hours)} spent so far. Low and high may stay empty where nothing is in doubt.
          </div>
        </fieldset>
      </Form>
    </Dialog>
  )
}
