import { z } from 'zod'
import { optionalNoteSchema, PLACES, repairPlanSchema, SIDES } from '../../domain/facts/shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, ChoiceField, NoteField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { draftPlan } from './draft-plan.ts'
import { useRepair } from './repair-context.ts'
import { useChangePlan } from './use-change-plan.ts'

const { name, zone, on, loadBearing, primedFirst, outer } = repairPlanSchema.shape
const schema = z.object({ name, zone, on, loadBearing, primedFirst, outer, reason: optionalNoteSchema })

/** Name, side and what kind of repair it is. */
export function PlanDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const { command, change } = useChangePlan()
  const { plan } = view
  const form = useZodForm(schema, {
    name: plan.name,
    zone: plan.zone,
    on: plan.on,
    loadBearing: plan.loadBearing,
    primedFirst: plan.primedFirst,
    outer: plan.outer,
    reason: '',
  })
  return (
    <Dialog title={`Change ${plan.name}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ reason, ...changed }) => {
          if (isSettled(await change({ ...draftPlan(plan), ...changed }, reason))) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Name" />
        <ChoiceField control={form.control} name="zone.side" label="Side" choices={asChoices(SIDES)} />
        <ChoiceField control={form.control} name="zone.place" label="Place" choices={asChoices(PLACES)} />
        <ChoiceField
          control={form.control}
          name="on"
          label="Where it is"
          choices={[
            { value: 'shell', words: 'on the shell' },
            { value: 'part', words: 'on a part off the car' },
          ]}
        />
        <CheckField control={form.control} name="loadBearing" label="Load-bearing metal" />
        <CheckField control={form.control} name="outer" label="Outer repair: it gets the outer finish" />
        <CheckField
          control={form.control}
          name="primedFirst"
          label="Primed before sealed, as the product’s data sheet says"
        />
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}
