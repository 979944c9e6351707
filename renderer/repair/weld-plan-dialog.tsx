import { useFieldArray } from 'react-hook-form'
import { z } from 'zod'
import { JOINT_KINDS, optionalNoteSchema, repairPlanSchema } from '../../domain/facts/shapes.ts'
import type { JointId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField, NumberField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { draftPlan } from './draft-plan.ts'
import { useRepair } from './repair-context.ts'
import styles from './dialogs.module.css'
import { useChangePlan } from './use-change-plan.ts'

const schema = z.object({ welds: repairPlanSchema.shape.welds, reason: optionalNoteSchema })

/** What welded asks for: spots and plugs by count, seams by length. */
export function WeldPlanDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const { command, change } = useChangePlan()
  const form = useZodForm(schema, { welds: draftPlan(view.plan).welds, reason: '' })
  const rows = useFieldArray({ control: form.control, name: 'welds' })
  return (
    <Dialog title="Weld plan" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change the weld plan"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ welds, reason }) => {
          if (isSettled(await change({ ...draftPlan(view.plan), welds }, reason))) onClose()
        }}
      >
        {rows.fields.length === 0 && <p className="quiet">No joint yet: welded asks for no count.</p>}
        <div className={styles.rows}>
          {rows.fields.map((row, index) => (
            <div key={row.id} className={styles.rowEdit}>
              <TextField control={form.control} name={`welds.${index}.name`} label="Joint" />
              <div className="field-row">
                <SelectField
                  control={form.control}
                  name={`welds.${index}.kind`}
                  label="Kind"
                  choices={asChoices(JOINT_KINDS)}
                />
                <NumberField
                  control={form.control}
                  name={`welds.${index}.planned`}
                  label="Planned"
                  unit={form.watch(`welds.${index}.kind`) === 'seam' ? 'mm' : 'welds'}
                />
              </div>
              <WordButton onClick={() => rows.remove(index)}>take it out</WordButton>
            </div>
          ))}
        </div>
        <Button
          onClick={() =>
            rows.append({
              jointId: newId<JointId>(),
              name: '',
              kind: 'plug',
              planned: null as unknown as number,
            })
          }
        >
          Add a joint
        </Button>
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}
