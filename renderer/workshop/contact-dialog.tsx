import { useState } from 'react'
import { contactSchema } from '../../domain/commands/command-shapes.ts'
import type { PartyId } from '../../domain/ids.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import type { WorkshopParty } from './workshop-shapes.ts'

/** How to reach an owner, insurer or firm. It stands in the contact book only, never in a car's record. */
export function ContactDialog({
  party,
  kind,
  title,
  onClose,
}: {
  /** Null to add one. */
  readonly party: WorkshopParty | null
  readonly kind: WorkshopParty['kind']
  readonly title: string
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [partyId] = useState(() => party?.id ?? newId<PartyId>())
  const form = useZodForm(contactSchema, party?.contact ?? { name: '', phone: '', email: '', address: '' })
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={party === null ? 'Add it' : 'Keep the changes'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (contact) => {
          const outcome =
            party === null
              ? await command.send({ kind: 'addParty', carId: null, payload: { partyId, kind, contact } })
              : await command.send({ kind: 'changeContact', carId: null, payload: { id: partyId, contact } })
          if (isSettled(outcome)) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Name" isFirst />
        <div className="field-row">
          <TextField control={form.control} name="phone" label="Phone" type="tel" />
          <TextField control={form.control} name="email" label="E-mail" type="email" />
        </div>
        <TextField control={form.control} name="address" label="Address" />
        <p className="small quiet">
          Names and addresses stand in the contact book only; reports that were issued keep the name they were
          written to.
        </p>
      </Form>
    </Dialog>
  )
}
