import { useFieldArray } from 'react-hook-form'
import { z } from 'zod'
import { optionalNoteSchema, repairPlanSchema } from '../../domain/facts/shapes.ts'
import type { LayerId } from '../../domain/ids.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, NoteField, NumberField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { draftPlan } from './draft-plan.ts'
import { useRepair } from './repair-context.ts'
import styles from './dialogs.module.css'
import { useChangePlan } from './use-change-plan.ts'

const schema = z.object({ layers: repairPlanSchema.shape.layers, reason: optionalNoteSchema })

/** The sheets of the repair, innermost first; the last one is the closing panel. */
export function LayersPlanDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const { command, change } = useChangePlan()
  const form = useZodForm(schema, { layers: draftPlan(view.plan).layers, reason: '' })
  const rows = useFieldArray({ control: form.control, name: 'layers' })
  const add = () =>
    rows.append({ layerId: newId<LayerId>(), name: '', thicknessMm: 1, loadBearing: view.plan.loadBearing })
  return (
    <Dialog title="Layers, innermost first" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change the layers"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ layers, reason }) => {
          if (isSettled(await change({ ...draftPlan(view.plan), layers }, reason))) onClose()
        }}
      >
        <div className={styles.rows}>
          {rows.fields.map((row, index) => (
            <div key={row.id} className={styles.rowEdit}>
              <div className="field-row">
                <TextField
                  control={form.control}
                  name={`layers.${index}.name`}
                  label={index === rows.fields.length - 1 ? 'Closing panel' : `Layer ${index + 1}`}
                />
                <NumberField
                  control={form.control}
                  name={`layers.${index}.thicknessMm`}
                  label="Thickness"
                  unit="mm"
                />
              </div>
              <div className="spread">
                <CheckField
                  control={form.control}
                  name={`layers.${index}.loadBearing`}
                  label="load-bearing"
                />
                <span className="row">
                  {index > 0 && (
                    <WordButton onClick={() => rows.move(index, index - 1)}>further in</WordButton>
                  )}
                  {rows.fields.length > 1 && (
                    <WordButton onClick={() => rows.remove(index)}>take it out</WordButton>
                  )}
                </span>
              </div>
            </div>
          ))}
        </div>
        <Button onClick={add}>Add a layer outside</Button>
        <NoteField control={form.control} name="reason" label="Why (may stay empty)" />
      </Form>
    </Dialog>
  )
}
