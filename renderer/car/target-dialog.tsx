import { carFacts } from '../../domain/facts/car-facts.ts'
import type { CarId } from '../../domain/ids.ts'
import { mm } from '../../domain/text/words.ts'
import type { DimensionView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NoteField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'

const schema = carFacts.dimensionTargetSet.omit({ dimensionId: true })

/** A sagged shell is pulled back: the target is then not what was found. */
export function TargetDialog({
  carId,
  dimension,
  revision,
  onClose,
}: {
  readonly carId: CarId
  readonly dimension: DimensionView
  readonly revision: number
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { targetMm: dimension.targetMm, reason: '' })
  return (
    <Dialog title={`Target of ${dimension.name}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Set the target"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { dimensionId: dimension.id, ...values }
          const outcome = await command.send({ kind: 'setDimensionTarget', carId, seen: revision, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p className="quiet">
          As found {mm(dimension.asFoundMm)}. Every reading is then judged from the new target.
        </p>
        <NumberField control={form.control} name="targetMm" label="Target" unit="mm" />
        <NoteField
          control={form.control}
          name="reason"
          label="Reason"
          hint="for instance: sagged, to be pulled back to the other side"
        />
      </Form>
    </Dialog>
  )
}
