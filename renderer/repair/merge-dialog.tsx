import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { reasonSchema } from '../../domain/facts/shapes.ts'
import { repairIdSchema } from '../../domain/ids.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField, SelectField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = z.object({ into: repairIdSchema, reason: reasonSchema })

/** Another repair takes the rest of the work over, with links and unspent hours. */
export function MergeDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const car = useQuery(api.car.queryOptions({ carId: view.car.carId }))
  const others = (car.data?.repairs ?? []).filter(({ id, retired }) => id !== view.repair.id && !retired)
  const form = useZodForm(schema, { reason: '' })
  const title = `Merge ${view.repair.name}`
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ into, reason }) => {
          const name = others.find(({ id }) => id === into)?.name ?? ''
          const outcome = await command.send({
            kind: 'mergeRepairs',
            carId: view.car.carId,
            payload: { repairId: view.repair.id, into, reason },
            sign: { title, says: [`Into: ${name}`, `Reason: ${reason}`] },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <SelectField
          control={form.control}
          name="into"
          label="Which repair takes it over"
          choices={others.map(({ id, name }) => ({ value: id, words: name }))}
          none="choose a repair"
        />
        <NoteField control={form.control} name="reason" label="Why they are merged" />
      </Form>
    </Dialog>
  )
}
