import { z } from 'zod'
import { hoursSchema, PAYERS, payerSchema, threePointSchema } from '../../domain/facts/shapes.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { hours } from '../../domain/text/words.ts'
import type { CarView, EstimateLineView } from '../../domain/views/view-shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, HoursThreePointField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { lineTarget } from '../parts/car/line-target.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'

const schema = z.object({ hours: threePointSchema, agreed: hoursSchema.nullable(), payer: payerSchema })

/** New figures of one line; the first ones stay readable as its baseline. */
export function EstimateLineDialog({
  view,
  line,
  onClose,
}: {
  readonly view: CarView
  readonly line: EstimateLineView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { carId, visitId, revision } = view.header
  const form = useZodForm(schema, { hours: { ...line.hours }, agreed: line.agreed, payer: line.payer })
  return (
    <Dialog title={line.what} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Set these figures"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const target = lineTarget(line)
          if (visitId === null || target === null) return
          const agreed = values.agreed ?? Math.round(expectedHours(values.hours) * 100) / 100
          const changed = { lineId: line.lineId, target, hours: values.hours, agreed, payer: values.payer }
          const outcome = await command.send({
            kind: 'setEstimate',
            carId,
            seen: revision,
            payload: { visitId, lines: [changed] },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <HoursThreePointField control={form.control} name="hours" label="Person-hours" />
        <NumberField
          control={form.control}
          name="agreed"
          label="Agreed figure"
          unit="h"
          hint="Empty: (shortest + 4 × most likely + longest) ÷ 6."
        />
        <ChoiceField control={form.control} name="payer" label="Who pays" choices={asChoices(PAYERS)} />
        <p className="small quiet">
          First estimate {hours(line.baseline)}.{' '}
          {line.accepted && 'A changed line must be accepted again by its payer.'}
        </p>
      </Form>
    </Dialog>
  )
}
