import { asChoices } from '../parts/form/as-choices.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { BODIES, carFacts } from '../../domain/facts/car-facts.ts'
import type { AttachmentId, CarId, VisitId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { api, uploadPhoto, type StoredPhoto } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, DateField, NumberField, SelectField, TextField } from '../parts/form/fields.tsx'
import { FieldFrame } from '../parts/form/inputs.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import {
  InsurerPicker,
  type KnownParty,
  type PartyChoice,
  partyProblem,
  PartyPicker,
  settleInsurer,
  settleParty,
  usePartyChoice,
} from '../parts/car/party.tsx'
import { PHOTO_TYPES } from '../parts/photos/use-photo-inputs.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { answered } from '../parts/frame/answered.ts'
import {
  agreementFields,
  capIsGiven,
  chargeChoices,
  priorityChoices,
  toCharge,
} from '../parts/car/visit-words.ts'

const { shellNumber, name, body, year } = carFacts.carChanged.shape
const schema = z
  .object({
    shellNumber,
    name,
    body,
    year,
    status: z.enum(['enquired', 'agreed', 'in work']),
    ...agreementFields,
  })
  .refine(capIsGiven.check, capIsGiven.says)

/** A car comes in: what it is, whose, what was promised, and a photo as it stands. */
export function AddCarDialog({ onClose }: { readonly onClose: () => void }) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog title="Add a car" isOpen onClose={onClose} size="wide">
      <Loaded query={workshop}>
        {({ parties }) => (
          <AddCarForm
            owners={parties.filter(({ kind }) => kind === 'owner')}
            insurers={parties.filter(({ kind }) => kind === 'insurer')}
            onClose={onClose}
          />
        )}
      </Loaded>
    </Dialog>
  )
}

function AddCarForm({
  owners,
  insurers,
  onClose,
}: {
  readonly owners: readonly KnownParty[]
  readonly insurers: readonly KnownParty[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [ids] = useState(() => ({
    carId: newId<CarId>(),
    visitId: newId<VisitId>(),
    attachmentId: newId<AttachmentId>(),
  }))
  // Nobody in particular: an owner who was taken over from a list would be noticed in the first letter.
  const [owner, setOwner] = usePartyChoice([])
  const [insurer, setInsurer] = useState<PartyChoice | null>(null)
  const [file, setFile] = useState<File | null>(null)
  const [photoRefusal, setPhotoRefusal] = useState<Refusal | null>(null)
  const form = useZodForm(schema, {
    shellNumber: '',
    name: '',
    body: 'saloon',
    year: null,
    status: 'agreed',
    promised: null,
    priority: '1',
    charge: 'hour',
    capHours: null,
  })

  const submit = async (values: z.output<typeof schema>) => {
    if (partyProblem(owner) !== null || partyProblem(insurer) !== null) return
    setPhotoRefusal(null)
    const stored =
      file === null ? null : await answered(() => uploadPhoto(file, () => undefined), WITHOUT_PHOTO)
    if (stored?.ok === false) return setPhotoRefusal(stored.refusal)
    const ownerId = await settleParty(command, owner, 'owner')
    if (ownerId === null) return
    const insurerId = await settleInsurer(command, insurer)
    if (insurerId === undefined) return
    const outcome = await command.send({
      kind: 'addCar',
      carId: ids.carId,
      payload: {
        carId: ids.carId,
        shellNumber: values.shellNumber,
        name: values.name,
        body: values.body,
        year: values.year,
        visit: {
          visitId: ids.visitId,
          kind: 'agreed',
          ownerId,
          insurerId,
          status: values.status,
          promised: values.promised,
          priority: Number(values.priority),
          charge: toCharge(values.charge, values.capHours),
        },
        photo: stored === null ? null : firstPhoto(ids.attachmentId, stored.value),
      },
    })
    if (isSettled(outcome)) onClose()
  }

  return (
    <Form form={form} submit="Add the car" refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
      <div className="field-row">
        <TextField
          control={form.control}
          name="name"
          label="Name of the car"
          hint="as the workshop calls it"
          isFirst
        />
        <TextField control={form.control} name="shellNumber" label="Shell number" />
        <SelectField control={form.control} name="body" label="Body" choices={asChoices(BODIES)} />
        <NumberField control={form.control} name="year" label="Year (may stay empty)" unit="" />
      </div>
      <PartyPicker
        label="Owner"
        known={owners}
        value={owner}
        onChange={setOwner}
        showErrors={form.formState.isSubmitted}
      />
      <InsurerPicker
        known={insurers}
        value={insurer}
        onChange={setInsurer}
        showErrors={form.formState.isSubmitted}
      />
      <div className="field-row">
        <DateField control={form.control} name="promised" label="Promised for" hint="may stay empty" />
        <ChoiceField control={form.control} name="priority" label="Priority" choices={priorityChoices} />
      </div>
      <div className="field-row">
        <ChoiceField
          control={form.control}
          name="status"
          label="How far it is agreed"
          choices={asChoices(['enquired', 'agreed', 'in work'])}
        />
        <ChoiceField control={form.control} name="charge" label="Charged" choices={chargeChoices} />
        {form.watch('charge') === 'capped' && (
          <NumberField control={form.control} name="capHours" label="Cap" unit="h" />
        )}
      </div>
      <FieldFrame label="First photo, as it came in (may be added later)">
        {(field) => (
          <input
            {...field}
            className="input"
            type="file"
            accept={PHOTO_TYPES}
            onChange={(event) => setFile(event.target.files?.[0] ?? null)}
          />
        )}
      </FieldFrame>
      <RefusalNote refusal={photoRefusal} />
    </Form>
  )
}

const WITHOUT_PHOTO = 'Add the car without a photo, or try again when the connection is back.'

const firstPhoto = (attachmentId: AttachmentId, { sha256, taken }: StoredPhoto) => ({
  attachmentId,
  sha256,
  taken,
})
