import { useQuery } from '@tanstack/react-query'
import type { z } from 'zod'
import { gatePlanSchema, optionalNoteSchema } from '../../domain/facts/shapes.ts'
import { gatesBefore, type Gate } from '../../domain/gates.ts'
import { usualSettings } from '../../domain/usual-workshop.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { GatePlanFields } from '../parts/gates/gate-plan-fields.tsx'
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
        <GatePlanFields
          control={form.control}
          at=""
          gate={gate}
          before={gatesBefore(view.plan, gate)}
          skills={skills}
          bayKinds={kinds}
          limits={workshop.data?.settings.conditions ?? usualSettings.conditions}
          hoursHint="the estimate keeps its agreed figure; more work is a variation"
        />
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}

const unique = (words: readonly string[]): readonly string[] => [...new Set(words)]
