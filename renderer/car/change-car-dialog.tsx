import { BODIES, carFacts } from '../../domain/facts/car-facts.ts'
import type { CarLine } from '../../domain/views/view-shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NumberField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'

export function ChangeCarDialog({ car, onClose }: { readonly car: CarLine; readonly onClose: () => void }) {
  const command = useCommand()
  const { shellNumber, name, body, year } = car
  const form = useZodForm(carFacts.carChanged, { shellNumber, name, body, year })
  return (
    <Dialog title="Change the car" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (payload) => {
          const outcome = await command.send({
            kind: 'changeCar',
            carId: car.carId,
            seen: car.revision,
            payload,
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Name" />
        <TextField control={form.control} name="shellNumber" label="Shell number" />
        <SelectField control={form.control} name="body" label="Body" choices={asChoices(BODIES)} />
        <NumberField control={form.control} name="year" label="Year (may stay empty)" unit="" />
      </Form>
    </Dialog>
  )
}
