import { useState } from 'react'
import { z } from 'zod'
import { nameSchema, reasonSchema } from '../../domain/facts/shapes.ts'
import type { RepairId } from '../../domain/ids.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField, NumberField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { planCopy } from '../parts/car/plan-copy.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { draftPlan } from './draft-plan.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = z.object({
  name: nameSchema,
  percent: z.number().min(0, 'From 0 to 100 %.').max(100, 'From 0 to 100 %.'),
  reason: reasonSchema,
})

/** A part of the work becomes a repair of its own; links and a share of the unspent hours go with it. */
export function SplitDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const [newRepairId] = useState(() => newId<RepairId>())
  const form = useZodForm(schema, { name: `${view.repair.name}, second part`, percent: 50, reason: '' })
  const title = `Split ${view.repair.name}`
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ name, percent, reason }) => {
          const outcome = await command.send({
            kind: 'splitRepair',
            carId: view.car.carId,
            payload: {
              repairId: view.repair.id,
              newRepairId,
              plan: planCopy(draftPlan(view.plan), name),
              share: percent / 100,
              reason,
            },
            sign: {
              title,
              says: [
                `New repair: ${name}`,
                `${percent} % of the unspent hours go with it`,
                `Reason: ${reason}`,
              ],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p>What has happened stays where it happened. Covers and fit groups hold for both.</p>
        <TextField control={form.control} name="name" label="Name of the new repair" />
        <NumberField control={form.control} name="percent" label="Of the unspent hours it gets" unit="%" />
        <NoteField control={form.control} name="reason" label="Why it is split" />
      </Form>
    </Dialog>
  )
}
