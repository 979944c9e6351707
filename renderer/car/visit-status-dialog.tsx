import { carFacts, VISIT_STATUSES } from '../../domain/facts/car-facts.ts'
import type { CarLine, CarView } from '../../domain/views/view-shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'

const schema = carFacts.visitStatusSet.omit({ visitId: true })

export function VisitStatusDialog({
  car,
  visit,
  onClose,
  onDelivered,
}: {
  readonly car: CarLine
  readonly visit: CarView['visits'][number]
  readonly onClose: () => void
  /** Takes the place of closing once the car is handed over. */
  readonly onDelivered: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { status: visit.status, reason: '' })
  return (
    <Dialog title="How far the visit is" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Set it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { visitId: visit.visitId, ...values }
          const answer = await command.send({ kind: 'setVisitStatus', carId: car.carId, payload })
          if (!isSettled(answer)) return
          if (answer.is === 'done' && values.status === 'delivered') onDelivered()
          else onClose()
        }}
      >
        <ChoiceField
          control={form.control}
          name="status"
          label="The visit is"
          hint="A paused car is not planned and not late. Not taken on is what came to nothing or was added by mistake: say why."
          choices={asChoices(VISIT_STATUSES)}
        />
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}
