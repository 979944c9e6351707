import { asChoices } from '../parts/form/as-choices.ts'
import { isSettled } from '../parts/form/settled.ts'
import { z } from 'zod'
import { REWORK_CAUSES, reasonSchema, reworkCauseSchema } from '../../domain/facts/shapes.ts'
import type { CarId } from '../../domain/ids.ts'
import type { TaskView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useCommand } from '../parts/form/use-command.ts'

const schema = z.object({ cause: reworkCauseSchema, reason: reasonSchema })

/** What was undone is reopened; hours on it are rework from now on. */
export function ReopenTaskDialog({
  carId,
  task,
  onClose,
}: {
  readonly carId: CarId
  readonly task: TaskView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { reason: '' })
  return (
    <Dialog title={`Reopen ${task.name}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Reopen it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ cause, reason }) => {
          const outcome = await command.send({
            kind: 'reopenTask',
            carId,
            payload: { taskId: task.id, cause, reason },
            sign: { title: `Reopen ${task.name}`, says: [`Cause: ${cause}`, `Reason: ${reason}`] },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ChoiceField control={form.control} name="cause" label="Cause" choices={asChoices(REWORK_CAUSES)} />
        <NoteField control={form.control} name="reason" label="Reason" />
      </Form>
    </Dialog>
  )
}
