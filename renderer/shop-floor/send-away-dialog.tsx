import { isSettled } from '../parts/form/settled.ts'
import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { noteSchema } from '../../domain/facts/shapes.ts'
import type { AwayId } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import type { CarLine } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { DateField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import { Notice } from '../parts/form/notice.tsx'
import {
  type KnownParty,
  partyProblem,
  PartyPicker,
  settleParty,
  usePartyChoice,
} from '../parts/car/party.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'

const schema = z
  .object({
    what: noteSchema,
    from: z.iso.date('Give the day it leaves.'),
    expected: z.iso.date('Give the day it is expected back.'),
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
  readonly firms: readonly KnownParty[]
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const [firm, setFirm] = usePartyChoice(firms)
  const form = useZodForm(schema, { what: '', from: when.today, expected: addDays(when.today, 14) })
  const submit = async (times: z.output<typeof schema>) => {
    if (partyProblem(firm) !== null) return
    const firmId = await settleParty(command, firm, 'firm')
    if (firmId === null) return
    const payload = { awayId: newId<AwayId>(), firmId, ...times }
    const outcome = await command.send({ kind: 'sendAway', carId: car.carId, payload })
    if (isSettled(outcome)) onClose()
  }
  return (
    <Form form={form} submit="It leaves" refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
      {car.openRepairs > 0 && (
        <Notice kind="caution">
          <p>This shell is cut open: send it only braced or on a fixture.</p>
        </Notice>
      )}
      <PartyPicker
        label="To which firm"
        known={firms}
        value={firm}
        onChange={setFirm}
        showErrors={form.formState.isSubmitted}
      />
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
