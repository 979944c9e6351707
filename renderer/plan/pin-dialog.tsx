import { z } from 'zod'
import { personIdSchema } from '../../domain/ids.ts'
import type { PlannedWork } from '../../domain/plan/plan.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { DateField, ManyField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { useShownPlan } from './plan-context.ts'

const schema = z
  .object({ people: z.array(personIdSchema), day: z.iso.date().nullable() })
  .refine(({ people, day }) => people.length > 0 || day !== null, {
    error: 'Choose who does it, the day it starts, or both.',
    path: ['people'],
  })

/** Work that the plan may not give to others or put on another day. */
export function PinDialog({ work, onClose }: { readonly work: PlannedWork; readonly onClose: () => void }) {
  const { view, names } = useShownPlan()
  const when = useWhen()
  const command = useCommand()
  const form = useZodForm(schema, {
    people: [...work.people],
    day: work.pinned.day ? when.dateOf(work.start) : null,
  })
  return (
    <Dialog title={`Pin ${names.work(work)}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Pin it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (pin) => {
          const payload = { target: work.target, ...pin }
          const outcome = await command.send({ kind: 'pinWork', carId: work.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ManyField
          control={form.control}
          name="people"
          label="Who does it"
          hint="With nobody chosen the plan chooses."
          choices={view.people.map(({ personId, name, skills }) => ({
            value: personId,
            words: `${name} (${skills.join(', ')})`,
          }))}
        />
        <DateField
          control={form.control}
          name="day"
          label="The day it starts"
          hint="May stay empty: the plan then chooses the day."
        />
      </Form>
    </Dialog>
  )
}
