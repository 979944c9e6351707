import type { z } from 'zod'
import { agreementFacts } from '../../../domain/facts/agreement-facts.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceField, NoteField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

const schema = agreementFacts.declinedSettled.omit({ variationId: true })

const CHOICES: readonly { readonly value: z.infer<typeof schema>['choice']; readonly words: string }[] = [
  { value: 'workshop pays', words: 'the workshop pays' },
  { value: 'less work', words: 'less work' },
  { value: 'stopped', words: 'the car is stopped' },
]

/** Declined work: the workshop pays, less is done, or the car stops until it is settled otherwise. */
export function SettleDeclinedDialog({
  variation,
  onClose,
}: {
  readonly variation: VariationView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { choice: 'workshop pays', reason: '' })
  const { id, carId, title } = variation
  return (
    <Dialog title={`Declined: ${title}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ choice, reason }) => {
          const outcome = await command.send({
            kind: 'settleDeclined',
            carId,
            payload: { variationId: id, choice, reason },
            sign: { title: `Declined: ${title}`, says: [choice, `Reason: ${reason}`] },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ChoiceField
          control={form.control}
          name="choice"
          label="What happens now"
          hint="To leave the metal as it was found, close the repair as found instead."
          choices={CHOICES}
        />
        <NoteField control={form.control} name="reason" label="Reason" />
      </Form>
    </Dialog>
  )
}
