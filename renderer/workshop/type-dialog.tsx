import { useState } from 'react'
import type { z } from 'zod'
import { PLACES, repairPlanSchema, SIDES } from '../../domain/facts/shapes.ts'
import { GATES, gateOrder, gatesBefore, type Gate } from '../../domain/gates.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, ChoiceField, TextField } from '../parts/form/fields.tsx'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { GatePlanFields } from '../parts/gates/gate-plan-fields.tsx'
import { knownBayKinds, knownSkills } from './known-words.ts'
import { LayerFields } from './layer-fields.tsx'
import type { TypeStart } from './new-type.ts'
import { PartFields } from './part-fields.tsx'
import type { PlanForm } from './plan-form.ts'
import { planSection } from './plan-words.ts'
import styles from './types.module.css'
import { WeldFields } from './weld-fields.tsx'
import type { RepairTypeView, Workshop } from './workshop-shapes.ts'

/** A repair type while it is made or changed: the section follows what is typed. */
export function TypeDialog({
  view,
  types,
  start,
  onClose,
}: {
  readonly view: Workshop
  readonly types: readonly RepairTypeView[]
  readonly start: TypeStart
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form: PlanForm = useZodForm(repairPlanSchema, start.plan)
  const layers = form.watch('layers')
  return (
    <Dialog title={start.isNew ? 'New repair type' : start.plan.name} isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit={start.isNew ? 'Keep this type' : 'Keep it as the next version'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (plan) => {
          const payload = { typeId: start.typeId, plan }
          if (isSettled(await command.send({ kind: 'saveType', carId: null, payload }))) onClose()
        }}
      >
        <div className={styles.editor}>
          <Basics form={form} />
          <section className="stack-tight">
            <h3>Layers, innermost first</h3>
            <div className={styles.top}>
              <LayerFields form={form} />
              {layers.length > 0 && (
                <Section section={planSection({ layers: layers.map(drawable) })} width={300} />
              )}
            </div>
          </section>
          <GatesPart form={form} view={view} types={types} />
          <WeldFields form={form} />
          <PartFields form={form} />
        </div>
      </Form>
    </Dialog>
  )
}

function Basics({ form: { control } }: { readonly form: PlanForm }) {
  return (
    <section className="stack">
      <TextField control={control} name="name" label="Name" />
      <div className="field-row">
        <ChoiceField control={control} name="zone.side" label="Side" choices={asChoices(SIDES)} />
        <ChoiceField control={control} name="zone.place" label="Place" choices={asChoices(PLACES)} />
        <ChoiceField
          control={control}
          name="on"
          label="Done on"
          choices={[
            { value: 'shell', words: 'the shell' },
            { value: 'part', words: 'a part off the car' },
          ]}
        />
      </div>
      <div className={styles.checks}>
        <CheckField control={control} name="loadBearing" label="Load-bearing" />
        <CheckField control={control} name="outer" label="Outer panel" />
        <CheckField
          control={control}
          name="primedFirst"
          label="Primed before sealed"
          hint="As the product’s data sheet says."
        />
      </div>
    </section>
  )
}

/** One gate at a time; those with something wrong are named. */
function GatesPart({
  form,
  view,
  types,
}: {
  readonly form: PlanForm
  readonly view: Workshop
  readonly types: readonly RepairTypeView[]
}) {
  const [gate, setGate] = useState<Gate>('opened')
  const { errors } = form.formState
  const wrong = GATES.filter((each) => errors.gates?.[each] !== undefined)
  return (
    <section className="stack-tight">
      <ChoiceRow
        label="Gates"
        choices={asChoices(gateOrder({ primedFirst: form.watch('primedFirst') }))}
        value={gate}
        onChange={setGate}
      />
      {wrong.length > 0 && (
        <Notice kind="refused">Something is missing or wrong at: {wrong.join(', ')}. Choose it above.</Notice>
      )}
      <div className={styles.gateBox}>
        <GatePlanFields
          key={gate}
          control={form.control}
          at={`gates.${gate}.`}
          gate={gate}
          before={gatesBefore({ primedFirst: form.watch('primedFirst') }, gate)}
          skills={knownSkills(view, types)}
          bayKinds={knownBayKinds(view, types)}
          limits={view.settings.conditions}
        />
      </div>
    </section>
  )
}

/** A layer while its thickness is being typed. */
const drawable = (layer: z.input<typeof repairPlanSchema>['layers'][number]) => ({
  ...layer,
  thicknessMm: layer.thicknessMm >= 0.2 && layer.thicknessMm <= 12 ? layer.thicknessMm : 1,
})
