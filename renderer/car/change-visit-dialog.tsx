import type { CarLine, CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { toAgreement, VisitFields, visitSchema } from './visit-fields.tsx'

export function ChangeVisitDialog({
  car,
  visit,
  onClose,
}: {
  readonly car: CarLine
  readonly visit: CarView['visits'][number]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(visitSchema, {
    promised: car.promised,
    priority: String(car.priority) as '1' | '2' | '3',
    charge: visit.charge.by,
    capHours: visit.charge.by === 'capped' ? visit.charge.capHours : null,
  })
  return (
    <Dialog title="What was agreed" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { visitId: visit.visitId, ...toAgreement(values) }
          const outcome = await command.send({
            kind: 'changeVisit',
            carId: car.carId,
            seen: car.revision,
            payload,
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <VisitFields form={form} />
      </Form>
    </Dialog>
  )
}
