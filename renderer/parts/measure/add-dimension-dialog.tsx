import { carFacts } from '../../../domain/facts/car-facts.ts'
import { SIDES, type Fixture, type Side } from '../../../domain/facts/shapes.ts'
import type { CarId, DimensionId } from '../../../domain/ids.ts'
import { DEFAULT_LIMIT_MM } from '../../../domain/measure/dimensions.ts'
import { asChoices } from '../form/as-choices.ts'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceField, NumberField, TextField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { newId } from '../form/new-id.ts'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { StoodFields } from './stood-fields.tsx'

const schema = carFacts.dimensionAdded.omit({ dimensionId: true })

/** A reference dimension with its as-found reading, taken before metal is cut. */
export function AddDimensionDialog({
  carId,
  side,
  stood,
  onClose,
}: {
  readonly carId: CarId
  readonly side: Side
  readonly stood: Fixture | null
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, {
    name: '',
    kind: 'aperture',
    side,
    limitMm: DEFAULT_LIMIT_MM.aperture,
    mm: null as unknown as number,
    stood: stood ?? 'wheels',
    doorsHung: false,
  })
  return (
    <Dialog title="Add a reference dimension" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Record as found"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { dimensionId: newId<DimensionId>(), ...values }
          if (isSettled(await command.send({ kind: 'addDimension', carId, payload }))) onClose()
        }}
      >
        <p className="quiet">
          Read it before metal is cut: every later reading is compared with this one, taken the same way.
        </p>
        <TextField
          control={form.control}
          name="name"
          label="What is measured"
          hint="for instance: door opening, lower hinge to striker"
        />
        <ChoiceField control={form.control} name="kind" label="Kind" choices={KINDS} />
        <ChoiceField control={form.control} name="side" label="Side" choices={asChoices(SIDES)} />
        <div className="field-row">
          <NumberField control={form.control} name="mm" label="As found" unit="mm" />
          <NumberField
            control={form.control}
            name="limitMm"
            label="May drift by"
            unit="mm"
            hint={`usual: ${DEFAULT_LIMIT_MM.aperture} mm for openings, ${DEFAULT_LIMIT_MM.datum} mm for datum points`}
          />
        </div>
        <StoodFields control={form.control} />
      </Form>
    </Dialog>
  )
}

const KINDS = [
  { value: 'aperture', words: 'opening, corner to corner' },
  { value: 'datum', words: 'between datum points' },
]
