import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { nameSchema, noteSchema } from '../../domain/facts/shapes.ts'
import type { AwayId, PartyId } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import type { CarLine } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/dialog.tsx'
import { DateField, SelectField, TextField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { newId } from '../parts/new-id.ts'
import { Notice } from '../parts/notice.tsx'
import { useCommand } from '../parts/use-command.ts'
import { useWhen } from '../parts/when.tsx'

const NEW_FIRM = 'new'

const schema = z
  .object({
    firm: z.string(),
    newFirm: z.string(),
    what: noteSchema,
    from: z.iso.date('Give the day it leaves.'),
    expected: z.iso.date('Give the day it is expected back.'),
  })
  .refine(({ firm, newFirm }) => firm !== NEW_FIRM || nameSchema.safeParse(newFirm).success, {
    error: 'Give the name of the firm.',
    path: ['newFirm'],
  })
  .refine(({ from, expected }) => from <= expected, {
    error: 'It cannot be back before it leaves.',
    path: ['expected'],
  })

/** Sends a shell to a named firm: dipping, blasting, machining. */
export function SendAwayDialog({ car, onClose }: { readonly car: CarLine; readonly onClose: () => void }) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog title={`Send the ${car.name} away`} isOpen onClose={onClose}>
      <Loaded query={workshop}>
        {({ parties }) => (
          <SendAwayForm car={car} firms={parties.filter(({ kind }) => kind === 'firm')} onClose={onClose} />
        )}
      </Loaded>
    </Dialog>
  )
}

function SendAwayForm({
  car,
  firms,
  onClose,
}: {
  readonly car: CarLine
  readonly firms: readonly { readonly id: PartyId; readonly name: string }[]
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  // One id for however often the form is sent: a firm that was taken in is not added twice.
  const [newFirmId] = useState(() => newId<PartyId>())
  const form = useZodForm(schema, {
    firm: firms[0]?.id ?? NEW_FIRM,
    newFirm: '',
    what: '',
    from: when.today,
    expected: addDays(when.today, 14),
  })
  const isNew = form.watch('firm') === NEW_FIRM
  const submit = async ({ firm, newFirm, what, from, expected }: z.output<typeof schema>) => {
    if (firm === NEW_FIRM) {
      const contact = { name: newFirm, phone: '', email: '', address: '' }
      const added = await command.send({
        kind: 'addParty',
        carId: null,
        payload: { partyId: newFirmId, kind: 'firm', contact },
      })
      if (added.is === 'cancelled' || (added.is === 'refused' && added.refusal.code !== 'already')) return
    }
    const firmId = firm === NEW_FIRM ? newFirmId : (firm as PartyId)
    const payload = { awayId: newId<AwayId>(), firmId, what, from, expected }
    const outcome = await command.send({ kind: 'sendAway', carId: car.carId, payload })
    if (outcome.is === 'done' || outcome.is === 'kept') onClose()
  }
  return (
    <Form form={form} submit="It leaves" refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
      {car.openRepairs > 0 && (
        <Notice kind="caution">
          <p>This shell is cut open: send it only braced or on a fixture.</p>
        </Notice>
      )}
      <SelectField
        control={form.control}
        name="firm"
        label="To which firm"
        choices={[
          ...firms.map(({ id, name }) => ({ value: id, words: name })),
          { value: NEW_FIRM, words: 'another firm' },
        ]}
      />
      {isNew && <TextField control={form.control} name="newFirm" label="Name of the firm" />}
      <TextField
        control={form.control}
        name="what"
        label="What is done there"
        hint="dipping, blasting, machining"
      />
      <div className="field-row">
        <DateField control={form.control} name="from" label="Leaves on" />
        <DateField control={form.control} name="expected" label="Expected back on" />
      </div>
    </Form>
  )
}
