import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { CarLine, CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import {
  InsurerPicker,
  type KnownParty,
  type PartyChoice,
  partyProblem,
  settleInsurer,
} from '../parts/car/party.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { Loaded } from '../parts/frame/loaded.tsx'
import { toAgreement, VisitFields, visitSchema } from './visit-fields.tsx'

interface Props {
  readonly car: CarLine
  readonly visit: CarView['visits'][number]
  readonly onClose: () => void
}

export function ChangeVisitDialog(props: Props) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog title="What was agreed" isOpen onClose={props.onClose}>
      <Loaded query={workshop}>
        {({ parties }) => (
          <ChangeVisitForm {...props} insurers={parties.filter(({ kind }) => kind === 'insurer')} />
        )}
      </Loaded>
    </Dialog>
  )
}

function ChangeVisitForm({
  car,
  visit,
  insurers,
  onClose,
}: Props & { readonly insurers: readonly KnownParty[] }) {
  const command = useCommand()
  const [insurer, setInsurer] = useState<PartyChoice | null>(
    visit.insurerId === null ? null : { is: 'known', id: visit.insurerId },
  )
  const form = useZodForm(visitSchema, {
    promised: car.promised,
    priority: String(car.priority) as '1' | '2' | '3',
    charge: visit.charge.by,
    capHours: visit.charge.by === 'capped' ? visit.charge.capHours : null,
  })
  return (
    <Form
      form={form}
      submit="Change it"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async (values) => {
        if (partyProblem(insurer) !== null) return
        const insurerId = await settleInsurer(command, insurer)
        if (insurerId === undefined) return
        const payload = { visitId: visit.visitId, insurerId, ...toAgreement(values) }
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
      <InsurerPicker
        known={insurers}
        value={insurer}
        onChange={setInsurer}
        showErrors={form.formState.isSubmitted}
      />
    </Form>
  )
}
