import { useState } from 'react'
import { z } from 'zod'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import type { BayId } from '../../domain/ids.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import type { BayPlace } from '../parts/drawing/bay-place.ts'
import { WordsField } from './words-field.tsx'
import type { WorkshopBay } from './workshop-shapes.ts'

const { name, kinds } = workshopFacts.bayAdded.shape
const schema = z.object({ name, kinds, active: z.boolean() })

/** What a bay is called and what can be done in it. */
export function BayDialog({
  bay,
  place,
  kinds: known,
  onClose,
}: {
  /** Null to add one. */
  readonly bay: WorkshopBay | null
  readonly place: BayPlace
  readonly kinds: readonly string[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [bayId] = useState(() => bay?.id ?? newId<BayId>())
  const form = useZodForm(schema, {
    name: bay?.name ?? '',
    kinds: [...(bay?.kinds ?? [])],
    active: bay?.active ?? true,
  })
  return (
    <Dialog title={bay?.name ?? 'Add a bay'} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={bay === null ? 'Add it' : 'Keep the changes'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ active, ...values }) => {
          const payload = { bayId, ...values, floor: { ...place } }
          const outcome =
            bay === null
              ? await command.send({ kind: 'addBay', carId: null, payload })
              : await command.send({ kind: 'changeBay', carId: null, payload: { ...payload, active } })
          if (isSettled(outcome)) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Name" isFirst />
        <WordsField
          control={form.control}
          name="kinds"
          label="What can be done in it"
          hint="Gates and tasks ask for a kind of bay. Storage holds many cars, every other bay one."
          known={known}
          another="Another kind"
        />
        {bay !== null && (
          <CheckField
            control={form.control}
            name="active"
            label="In use"
            hint="A bay that is taken out is drawn no more; what happened in it stays on record."
          />
        )}
      </Form>
    </Dialog>
  )
}
