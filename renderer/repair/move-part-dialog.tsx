import { z } from 'zod'
import { workFacts, type PartState } from '../../domain/facts/work-facts.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { DateField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'

const { expected, reason } = workFacts.partMoved.shape
const schemas = {
  rejected: z.object({
    expected,
    reason: reason.refine((words) => words !== '', 'Say what is wrong with it.'),
  }),
  other: z.object({ expected, reason }),
}

/** A part moves on: ordered, come, checked, rejected or fitted. */
export function MovePartDialog({
  part,
  to,
  onClose,
}: {
  readonly part: RepairView['parts'][number]
  readonly to: PartState
  readonly onClose: () => void
}) {
  const { view } = useRepair()
  const command = useCommand()
  const form = useZodForm(to === 'rejected' ? schemas.rejected : schemas.other, {
    expected: to === 'ordered' ? part.expected : null,
    reason: '',
  })
  return (
    <Dialog title={`${part.name}: ${to}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={SUBMIT[to]}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { partId: part.id, state: to, ...values }
          if (isSettled(await command.send({ kind: 'movePart', carId: view.car.carId, payload }))) onClose()
        }}
      >
        {to === 'checked' && (
          <p>
            Compare it with the old part and offer it up before anything is cut: is it the right one, and
            whole?
          </p>
        )}
        {to === 'ordered' && (
          <DateField control={form.control} name="expected" label="Expected on" hint="may stay empty" />
        )}
        <NoteField
          control={form.control}
          name="reason"
          label={to === 'rejected' ? 'What is wrong with it' : 'Note (may stay empty)'}
        />
      </Form>
    </Dialog>
  )
}

const SUBMIT: Readonly<Record<PartState, string>> = {
  needed: 'It is needed again',
  ordered: 'It is ordered',
  received: 'It has come',
  checked: 'It is right',
  rejected: 'Reject it',
  fitted: 'It is fitted',
}
