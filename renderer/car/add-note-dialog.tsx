import { carFacts } from '../../domain/facts/car-facts.ts'
import type { CarId } from '../../domain/ids.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'

export function AddNoteDialog({ carId, onClose }: { readonly carId: CarId; readonly onClose: () => void }) {
  const command = useCommand()
  const form = useZodForm(carFacts.noted, { text: '' })
  return (
    <Dialog title="A note on the car" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Add the note"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (payload) => {
          if (isSettled(await command.send({ kind: 'addNote', carId, payload }))) onClose()
        }}
      >
        <NoteField
          control={form.control}
          name="text"
          label="Note"
          hint="It goes into the record, with your name."
        />
      </Form>
    </Dialog>
  )
}
