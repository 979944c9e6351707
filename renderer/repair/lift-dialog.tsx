import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { workFacts } from '../../domain/facts/work-facts.ts'
import type { LiftId } from '../../domain/ids.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ManyField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { Notice } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = workFacts.supportLifted.pick({ repairIds: true, how: true })

/** Lifts the support hold for named repairs of a shell that is held some other way. */
export function LiftDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const [liftId] = useState(() => newId<LiftId>())
  const car = useQuery(api.car.queryOptions({ carId: view.car.carId }))
  const bearing = (car.data?.repairs ?? []).filter(
    ({ loadBearing, onPart, retired, finished }) => loadBearing && !onPart && !retired && !finished,
  )
  const form = useZodForm(schema, { repairIds: [view.repair.id], how: '' })
  return (
    <Dialog title="Several sides open at once" isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (lift) => {
          const outcome = await command.send({
            kind: 'liftSupport',
            carId: view.car.carId,
            payload: { liftId, ...lift },
            sign: {
              title: 'Lift the support hold',
              says: [`For ${lift.repairIds.length} repairs of ${view.car.name}`, `Held by: ${lift.how}`],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <Notice kind="caution">
          <p>
            A shell cut open on several sides moves unless it stands on a jig or rotisserie or is fully
            braced. The lift ends when the shell is moved.
          </p>
        </Notice>
        <ManyField
          control={form.control}
          name="repairIds"
          label="These may stand open together"
          choices={bearing.map(({ id, name }) => ({ value: id, words: name }))}
        />
        <NoteField control={form.control} name="how" label="How the shell is held" />
      </Form>
    </Dialog>
  )
}
