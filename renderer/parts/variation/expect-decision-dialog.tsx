import { z } from 'zod'
import { dateSchema } from '../../../domain/facts/shapes.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { Dialog } from '../form/dialog.tsx'
import { DateField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'

const schema = z.object({ expected: dateSchema })

/** The day on which the payer's answer is expected: the plan begins the work on it, not before. */
export function ExpectDecisionDialog({
  variation,
  onClose,
}: {
  readonly variation: VariationView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { id, carId, title, payer, expected } = variation
  const form = useZodForm(schema, { expected: expected ?? (null as unknown as string) })
  return (
    <Dialog title={`Answer expected: ${title}`} isOpen onClose={onClose} size="narrow">
      <Form
        form={form}
        submit="Plan by it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { variationId: id, ...values }
          if (isSettled(await command.send({ kind: 'expectDecision', carId, payload }))) onClose()
        }}
      >
        <DateField control={form.control} name="expected" label={`The ${payer} answers on`} />
        <p className="small quiet">The plan takes it that this work can begin then.</p>
      </Form>
    </Dialog>
  )
}
