import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { VisitId } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import {
  type KnownParty,
  partyProblem,
  PartyPicker,
  settleParty,
  usePartyChoice,
} from '../parts/car/party.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { toAgreement, VisitFields, visitSchema } from './visit-fields.tsx'

type Kind = CarView['visits'][number]['kind']

/** The car comes again: under a new agreement, or under warranty, which the workshop pays. */
export function OpenVisitDialog({ view, onClose }: { readonly view: CarView; readonly onClose: () => void }) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog
      title={view.header.cameFrom === null ? 'Open another visit' : 'Open a visit'}
      isOpen
      onClose={onClose}
    >
      <Loaded query={workshop}>
        {({ parties }) => (
          <OpenVisitForm
            view={view}
            owners={parties.filter(({ kind }) => kind === 'owner')}
            onClose={onClose}
          />
        )}
      </Loaded>
    </Dialog>
  )
}

function OpenVisitForm({
  view,
  owners,
  onClose,
}: {
  readonly view: CarView
  readonly owners: readonly KnownParty[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [kind, setKind] = useState<Kind>('agreed')
  const [owner, setOwner] = usePartyChoice(owners, view.visits[0]?.ownerId)
  const form = useZodForm(visitSchema, { promised: null, priority: '1', charge: 'hour', capHours: null })
  return (
    <Form
      form={form}
      submit="Open the visit"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async (values) => {
        if (partyProblem(owner) !== null) return
        const ownerId = await settleParty(command, owner, 'owner')
        if (ownerId === null) return
        const payload = {
          visitId: newId<VisitId>(),
          kind,
          ownerId,
          insurerId: null,
          status: 'agreed' as const,
          ...toAgreement(values),
        }
        const outcome = await command.send({ kind: 'openVisit', carId: view.header.carId, payload })
        if (isSettled(outcome)) onClose()
      }}
    >
      <ChoiceRow
        label="Kind of visit"
        hint="A warranty visit is paid by the workshop; its hours change no figure of the earlier one."
        choices={[
          { value: 'agreed', words: 'a new agreement' },
          { value: 'warranty', words: 'warranty' },
        ]}
        value={kind}
        onChange={setKind}
      />
      <PartyPicker
        label="Owner"
        known={owners}
        value={owner}
        onChange={setOwner}
        showErrors={form.formState.isSubmitted}
      />
      <VisitFields form={form} />
    </Form>
  )
}
