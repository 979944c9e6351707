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
  InsurerPicker,
  type KnownParty,
  type PartyChoice,
  partyProblem,
  PartyPicker,
  settleInsurer,
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
            owners={parties.filter((party) => party.kind === 'owner')}
            insurers={parties.filter((party) => party.kind === 'insurer')}
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
  insurers,
  onClose,
}: {
  readonly view: CarView
  readonly owners: readonly KnownParty[]
  readonly insurers: readonly KnownParty[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [kind, setKind] = useState<Kind>('agreed')
  const [owner, setOwner] = usePartyChoice(owners, view.visits[0]?.ownerId)
  const [insurer, setInsurer] = useState<PartyChoice | null>(null)
  const form = useZodForm(visitSchema, { promised: null, priority: '1', charge: 'hour', capHours: null })
  return (
    <Form
      form={form}
      submit="Open the visit"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async (values) => {
        if (partyProblem(owner) !== null || partyProblem(insurer) !== null) return
        const ownerId = await settleParty(command, owner, 'owner')
        if (ownerId === null) return
        const insurerId = await settleInsurer(command, insurer)
        if (insurerId === undefined) return
        const payload = {
          visitId: newId<VisitId>(),
          kind,
          ownerId,
          insurerId,
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
      <InsurerPicker
        known={insurers}
        value={insurer}
        onChange={setInsurer}
        showErrors={form.formState.isSubmitted}
      />
      <VisitFields form={form} />
    </Form>
  )
}
