import { isSettled } from '../parts/form/settled.ts'
import { z } from 'zod'
import { noteSchema } from '../../domain/facts/shapes.ts'
import { type LiftId, repairIdSchema } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ManyField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { Notice } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { repairChoices } from './repair-choices.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = z.object({
  repairIds: z.array(repairIdSchema).min(2, 'Name the repairs that may stand open together.'),
  how: noteSchema,
})

/** Lets load-bearing repairs of different sides stand open together, where the shell is held another way. */
export function LiftSupportDialog({
  view,
  onClose,
}: {
  readonly view: CarView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { repairIds: [], how: '' })
  const bearing = view.repairs.filter((repair) => repair.loadBearing)
  return (
    <Dialog title="Lift support" isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ repairIds, how }) => {
          const names = bearing.filter(({ id }) => repairIds.includes(id)).map(({ name }) => name)
          const outcome = await command.send({
            kind: 'liftSupport',
            carId: view.header.carId,
            payload: { liftId: newId<LiftId>(), repairIds, how },
            sign: { title: 'Lift support', says: [...names, `Held by: ${how}`], confirm: 'Lift it' },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <Notice kind="caution">
          <p>
            Load-bearing metal of one side only stands open at a time, or the shell moves and nothing fits
            again. Lift this only for a shell on a jig, on a rotisserie or fully braced. The lift ends when
            the shell is moved.
          </p>
        </Notice>
        <ManyField
          control={form.control}
          name="repairIds"
          label="May stand open together"
          choices={repairChoices(bearing)}
          none="This car has no load-bearing repairs."
        />
        <NoteField control={form.control} name="how" label="How the shell is held" />
      </Form>
    </Dialog>
  )
}
