import { z } from 'zod'
import { ANSWERED_BY } from '../../domain/facts/agreement-facts.ts'
import { optionalNoteSchema } from '../../domain/facts/shapes.ts'
import { hours } from '../../domain/text/words.ts'
import type { VariationView } from '../../domain/views/view-shapes.ts'
import { Dialog } from './dialog.tsx'
import { ChoiceField, NoteField } from './fields.tsx'
import { Form, useZodForm } from './form.tsx'
import { isSettled } from './settled.ts'
import { useCommand } from './use-command.ts'

const schema = z.object({ how: z.enum(ANSWERED_BY), note: optionalNoteSchema })

/** What the payer answered, and how the answer came. */
export function DecideVariationDialog({
  variation,
  decision,
  onClose,
}: {
  readonly variation: VariationView
  readonly decision: 'accepted' | 'declined'
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { how: 'call', note: '' })
  const { id, carId, title, payer } = variation
  return (
    <Dialog title={`The ${payer} ${decision}: ${title}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Go on to the code"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ how, note }) => {
          const outcome = await command.send({
            kind: 'decideVariation',
            carId,
            payload: { variationId: id, decision, changed: null, how, note },
            sign: {
              title: `The ${payer} ${decision}`,
              says: [title, `${hours(variation.hours)}, answered by ${how}`, ...(note === '' ? [] : [note])],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ChoiceField
          control={form.control}
          name="how"
          label="How the answer came"
          choices={ANSWERED_BY.map((value) => ({ value, words: value }))}
        />
        <NoteField control={form.control} name="note" label="What was said (may stay empty)" />
      </Form>
    </Dialog>
  )
}
