import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { workFacts } from '../../../domain/facts/work-facts.ts'
import type { CarId, LiftId, RepairId } from '../../../domain/ids.ts'
import type { CarView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { repairChoices } from '../car/repair-choices.ts'
import { Dialog } from '../form/dialog.tsx'
import { ManyField, NoteField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { newId } from '../form/new-id.ts'
import { Notice } from '../form/notice.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { Loaded } from '../frame/loaded.tsx'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'
import { bearingRepairs, tooFewToLift } from './may-lift.ts'

const schema = workFacts.supportLifted.pick({ repairIds: true, how: true })

/** Lets load-bearing repairs of different sides stand open together, where the shell is held another way. */
export function LiftSupportDialog({
  carId,
  named = [],
  onClose,
}: {
  readonly carId: CarId
  /** Repairs that are ticked to begin with. */
  readonly named?: readonly RepairId[]
  readonly onClose: () => void
}) {
  const query = useQuery(api.car.queryOptions({ carId }))
  return (
    <Dialog title="Lift support" isOpen onClose={onClose}>
      <Loaded query={query}>{(view) => <LiftForm view={view} named={named} onClose={onClose} />}</Loaded>
    </Dialog>
  )
}

function LiftForm({
  view,
  named,
  onClose,
}: {
  readonly view: CarView
  readonly named: readonly RepairId[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [liftId] = useState(() => newId<LiftId>())
  const form = useZodForm(schema, { repairIds: [...named], how: '' })
  const bearing = bearingRepairs(view.repairs)
  const tooFew = tooFewToLift(bearing)
  if (tooFew !== null) return <p>{tooFew}</p>
  return (
    <Form
      form={form}
      submit={GO_ON_TO_SIGN}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ repairIds, how }) => {
        const names = bearing.filter(({ id }) => repairIds.includes(id)).map(({ name }) => name)
        const outcome = await command.send({
          kind: 'liftSupport',
          carId: view.header.carId,
          payload: { liftId, repairIds, how },
          sign: { title: 'Lift support', says: [...names, `Held by: ${how}`], confirm: 'Lift it' },
        })
        if (isSettled(outcome)) onClose()
      }}
    >
      <Notice kind="caution">
        <p>
          Load-bearing metal of one side only stands open at a time, or the shell moves and nothing fits
          again. Lift this only for a shell on a jig, on a rotisserie or fully braced. The lift ends when the
          shell is moved.
        </p>
      </Notice>
      <ManyField
        control={form.control}
        name="repairIds"
        label="May stand open together"
        choices={repairChoices(bearing)}
      />
      <NoteField control={form.control} name="how" label="How the shell is held" />
    </Form>
  )
}
