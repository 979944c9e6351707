import { useQuery } from '@tanstack/react-query'
import type { z } from 'zod'
import { gatePlanSchema, optionalNoteSchema } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import { api } from '../client.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import {
  CheckField,
  HoursThreePointField,
  NoteField,
  NumberField,
  SelectField,
} from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { GateAsksFields } from './gate-asks-fields.tsx'
import { draftPlan } from './draft-plan.ts'
import { useRepair } from './repair-context.ts'
import { useChangePlan } from './use-change-plan.ts'

const gateFormSchema = gatePlanSchema.extend({ reason: optionalNoteSchema })

/** How one gate of this repair is planned and what it asks for; the repair carries its own copy of its type. */
export function GatePlanDialog({ gate, onClose }: { readonly gate: Gate; readonly onClose: () => void }) {
  const { view } = useRepair()
  const { command, change } = useChangePlan()
  const workshop = useQuery(api.workshop.queryOptions())
  const plan = view.plan.gates[gate]
  const form = useZodForm(gateFormSchema, { ...plan, reason: '' })
  const skills = unique([
    plan.skill,
    ...Object.values(view.plan.gates).map(({ skill }) => skill),
    ...(workshop.data?.people ?? []).flatMap((person) => person.skills),
  ])
  const kinds = unique([plan.bayKind, ...(workshop.data?.bays ?? []).flatMap((bay) => bay.kinds)])

  const submit = async ({ reason, ...changed }: z.output<typeof gateFormSchema>) => {
    const draft = draftPlan(view.plan)
    draft.gates[gate] = changed
    if (isSettled(await change(draft, reason))) onClose()
  }
  return (
    <Dialog title={`How ${gate} is planned`} isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit="Change the gate"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={submit}
      >
        <HoursThreePointField
          control={form.control}
          name="hours"
          label="Person-hours"
          hint="the estimate keeps its agreed figure; more work is a variation"
        />
        <div className="field-row">
          <SelectField control={form.control} name="skill" label="Skill" choices={asChoices(skills)} />
          <SelectField control={form.control} name="bayKind" label="Kind of bay" choices={asChoices(kinds)} />
          <NumberField control={form.control} name="people" label="People" unit="" />
          <NumberField
            control={form.control}
            name="cureHours"
            label="Cures for"
            unit="h"
            hint="the next gate waits so long"
          />
        </div>
        <CheckField control={form.control} name="hotWork" label="Hot work: a fire watch follows" />
        <GateAsksFields control={form.control} />
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}

const unique = (words: readonly string[]): readonly string[] => [...new Set(words)]
