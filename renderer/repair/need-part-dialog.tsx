import { workFacts } from '../../domain/facts/work-facts.ts'
import type { PartId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'

const schema = workFacts.partNeeded.pick({ gate: true, name: true })

/** A part that a gate cannot do without; the gate waits until it is checked. */
export function NeedPartDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const open = view.gates.filter(({ number }) => number === null).map(({ gate }) => gate)
  const form = useZodForm(schema, { name: '', gate: open[0] ?? 'painted' })
  return (
    <Dialog title="A part is needed" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="It is needed"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (part) => {
          const payload = { partId: newId<PartId>(), repairId: view.repair.id, ...part }
          if (isSettled(await command.send({ kind: 'needPart', carId: view.car.carId, payload }))) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Part" />
        <SelectField
          control={form.control}
          name="gate"
          label="Which gate waits for it"
          choices={asChoices(open)}
        />
      </Form>
    </Dialog>
  )
}
